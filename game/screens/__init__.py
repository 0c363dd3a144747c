"""The screens: Textual, one screen a file, its styles beside it. They draw and pass keys on."""
