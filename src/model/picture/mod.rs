//! Pictures that figures show: read from their bytes, measured, and made harmless, before any page is made.
mod raster;
mod svg;

pub use raster::turn;

use raster::Photograph;
use std::collections::HashMap;
use std::sync::Arc;

/// A picture that a page may hold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    pub kind: Kind,
    /// As a page holds it. Of a drawing only what is on the list of what a drawing may be made of; of a photograph
    /// nothing that the camera tells besides, such as where it was taken.
    pub bytes: Vec<u8>,
    /// In pixels, or in the drawing's own unit.
    pub width: u32,
    pub height: u32,
    /// Numbers that stand alone in a drawing, each once, rising: the items it points at. A photograph tells none.
    pub numbers: Vec<u32>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    Png,
    Jpeg,
    Svg,
}

impl Kind {
    /// The media type (IANA).
    pub fn media_type(self) -> &'static str {
        match self {
            Kind::Png => "image/png",
            Kind::Jpeg => "image/jpeg",
            Kind::Svg => "image/svg+xml",
        }
    }
}

/// Why a picture cannot be shown; each tail of a sentence says it of the file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Fault {
    /// It could not be had.
    Missing(String),
    /// It is larger than the house wants a picture to be; in bytes.
    TooLarge { bytes: u64 },
    /// Another kind, damaged, or a drawing with something in it that has no place on a sheet.
    Unusable(String),
}

/// The longest side of a picture, in pixels: one that is longer fills a tablet's memory when it is unpacked.
const LONGEST: u32 = 10_000;

impl Picture {
    /// Reads a picture by what is in it; its file's name counts for nothing.
    ///
    /// # Errors
    /// Where it is too large (`largest` in bytes), no PNG, JPEG or SVG, damaged, or not harmless.
    pub fn read(bytes: &[u8], largest: u64) -> Result<Picture, Fault> {
        if bytes.len() as u64 > largest {
            return Err(Fault::TooLarge { bytes: bytes.len() as u64 });
        }
        let (kind, photograph) = match bytes {
            [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n', rest @ ..] => (Kind::Png, raster::png(rest)),
            [0xff, 0xd8, rest @ ..] => (Kind::Jpeg, raster::jpeg(rest)),
            _ => return svg::read(bytes).map_err(Fault::Unusable),
        };
        let Photograph { width, height, bytes } =
            photograph.ok_or_else(|| Fault::Unusable("it is damaged or cut short".to_owned()))?;
        let (width, height) = within(width, height).map_err(Fault::Unusable)?;
        Ok(Picture { kind, bytes, width, height, numbers: Vec::new() })
    }
}

fn within(width: u32, height: u32) -> Result<(u32, u32), String> {
    if width == 0 || height == 0 {
        return Err("it has no size".to_owned());
    }
    if width > LONGEST || height > LONGEST {
        return Err(format!("it is {width} by {height} pixels, and no side may have more than {LONGEST}"));
    }
    Ok((width, height))
}

/// The pictures of a workspace by their path in it, read before the procedures are.
#[derive(Debug, Clone, Default)]
pub struct Pictures(HashMap<String, Result<Arc<Picture>, Fault>>);

impl Pictures {
    /// `path` is relative to the workspace, as [`super::catalogues::join`] gives it.
    pub fn add(&mut self, path: impl Into<String>, picture: Result<Picture, Fault>) {
        self.0.insert(path.into(), picture.map(Arc::new));
    }

    pub fn contains(&self, path: &str) -> bool {
        self.0.contains_key(path)
    }

    /// The picture at `path`.
    ///
    /// # Errors
    /// Why there is none.
    pub fn find(&self, path: &str) -> Result<Arc<Picture>, Fault> {
        let missing = || Err(Fault::Missing("there is no such file in the workspace".to_owned()));
        self.0.get(path).cloned().unwrap_or_else(missing)
    }
}
