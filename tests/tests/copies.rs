//! Old, or a later copy: how strong one look may be, how far the stated chances are to be believed, and that no one look
//! makes an ordinary piece dear.

mod calibrated;
mod ordinary;
mod tables;
