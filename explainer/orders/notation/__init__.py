"""Written prescriptions: text → tokens → one reading an eye. The front door is `assembly.written`.

A text goes table (`table.py`) → tokens → lists for both eyes (`lists.py`: a near list, an addition on its own line,
PD 31/32) → eyes → grammar. It is read strictly, because signs, decimal points and eyes do get lost in copying.
Refused although common: a power without a sign in written text (a TOML number carries its own), an axis of one digit
without a mark (it may be an addition), a dash with a blank before the number, powers from 10 D without two decimals,
base codes of two letters in languages where they collide with others, eye words that mean different eyes in
different languages unless the order's language says which, a left axis in Italian without its scale, and a near
value that might be an addition, unless the distance part is named too.

A new form is one line in tests/data/more_notations.tsv with its meaning written by hand. The tests then also take
away each of its signs, exchange its eyes and read it in every other language.
"""
