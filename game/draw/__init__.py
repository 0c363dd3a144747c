"""The picture: a cube in, rows of coloured text out. Pure: no screen, no clock, no files.

drawing  the whole floor in a few calls
look     how a cube is drawn: from where, how large, in which manner
depth    how many colours there are     palette  the colours of stickers and plastic
panel    what colours lie where         cells    pictures as text
still    a cube at rest                 flat     unfolded, and in letters alone
turning  while a layer turns            rays     what is seen of solid layers
"""
