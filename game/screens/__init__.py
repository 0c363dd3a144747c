"""The screens: Textual, one screen a file, one stylesheet. They draw and pass keys on; no rules."""
