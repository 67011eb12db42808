"""Written prescriptions: text → tokens → one reading an eye. The front door is `assembly.written`."""
