//! What holds of any bytes, one module a part of the program. The fuzz targets try it on what libFuzzer makes up, the tests
//! of the package on what was once found.
pub mod check;
pub mod editor;
pub mod format;
pub mod import;
pub mod parse;
pub mod record;
pub mod sheets;
mod shop;
