"""Every option of the sheet, described once: name, meaning, values, default.

The sheet's reference (docs/sheet.md) is generated from these classes.
"""
