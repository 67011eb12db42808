"""Job files of the spectacle trade's Data Communication Standard, and the rims traced in them.

An order names its job at the top, `job = "lt-2041.job"`, or gets it by the same number in the same run; a table does
so with a column `job`. The job fills in what the order lacks. Where both speak they must agree (the lens exactly, in
either cylinder form and with addition and prism; lengths to half a millimetre, the box to one), else the order is
refused with both values. Alone, a job is an order with the job's number; the format has no date, so it needs the
private record `_DATE=2026-11-20`. `[frame] trace` stays for a file that is asked for its outline only.

Inspection values are ambiguous in the format: a laboratory sends them as what a lens should show, a lensmeter writes
the same labels for what it read. So they are bench readings only when the order says so, `[bench] job = "read.job"`,
and never when they repeat the design's computed values (LDDRSPH, LDDRCYL). A generic material is named only where
index and type fit one.
"""
