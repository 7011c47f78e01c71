//! A photograph as it goes into a sheet: its size, and its file without what a camera tells besides the picture, such as
//! where it was taken.
use exif::{In, Tag};

/// Of PNG or JPEG.
#[derive(Debug)]
pub struct Photograph {
    /// As it is seen, in pixels.
    pub width: u32,
    pub height: u32,
    pub bytes: Vec<u8>,
}

const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";

/// What stands in a PNG besides the picture (PNG, third edition, 11.3).
const TOLD: [&[u8]; 5] = [b"tEXt", b"zTXt", b"iTXt", b"eXIf", b"tIME"];

/// The PNG behind its signature; `None` unless its chunks run from IHDR to IEND without a gap (PNG, third edition, 5.3
/// and 5.6).
pub fn png(mut rest: &[u8]) -> Option<Photograph> {
    let mut bytes = PNG.to_vec();
    let mut size = None;
    let mut painted = false;
    loop {
        let length = number(rest.get(..4)?)? as usize;
        let name = rest.get(4..8)?;
        let data = rest.get(8..)?.get(..length)?;
        // The checksum stands behind.
        let (chunk, after) = rest.split_at_checked(12 + length)?;
        if !TOLD.contains(&name) {
            bytes.extend_from_slice(chunk);
        }
        match (name, size) {
            (b"IHDR", None) => size = Some((number(data.get(..4)?)?, number(data.get(4..8)?)?)),
            (_, None) => return None,
            (b"IDAT", _) => painted = true,
            (b"IEND", Some((width, height))) => {
                return painted.then_some(Photograph { width, height, bytes });
            }
            _ => {}
        }
        rest = after;
    }
}

/// The JPEG behind its start mark; `None` where no frame begins or the end mark is missing (ITU-T T.81, annex B).
pub fn jpeg(rest: &[u8]) -> Option<Photograph> {
    let mut bytes = vec![0xff, 0xd8];
    let mut turn = 1;
    let mut rest = rest;
    loop {
        let [0xff, mark, after @ ..] = rest else { return None };
        match mark {
            // A mark may be filled up with more of the same.
            0xff => rest = rest.get(1..)?,
            // A frame: all of C0 to CF but the tables of Huffman, arithmetic coding and the reserved one.
            0xc0..=0xcf if !matches!(mark, 0xc4 | 0xc8 | 0xcc) => {
                let (height, width) = (short(after.get(3..5)?)?, short(after.get(5..7)?)?);
                rest.trim_ascii_end().strip_suffix(&[0xff, 0xd9])?;
                bytes.extend_from_slice(rest);
                let (width, height) = if turn < 5 { (width, height) } else { (height, width) };
                return Some(Photograph { width, height, bytes });
            }
            0x01 | 0xd0..=0xd7 => {
                bytes.extend([0xff, *mark]);
                rest = after;
            }
            0xd8..=0xda => return None,
            _ => {
                let (segment, next) = after.split_at_checked(short(after.get(..2)?)? as usize)?;
                match mark {
                    // What the camera and programs tell; only how to hold the picture is kept.
                    0xe1 => {
                        let held = segment.get(2..)?.strip_prefix(b"Exif\0\0").map_or(1, held);
                        if turn == 1 && held != 1 {
                            turn = held;
                            bytes.extend(only_held(turn));
                        }
                    }
                    0xed | 0xfe => {}
                    _ => bytes.extend([&[0xff, *mark], segment].concat()),
                }
                rest = next;
            }
        }
    }
}

/// How a JPEG is to be held: 1 as it is, to 8 (Exif 2.32, 4.6.4, Orientation).
pub fn turn(jpeg: &[u8]) -> u32 {
    reader()
        .read_from_container(&mut std::io::Cursor::new(jpeg))
        .or_else(what_can_be_read)
        .map_or(1, orientation)
}

fn held(exif: &[u8]) -> u32 {
    reader().read_raw(exif.to_vec()).or_else(what_can_be_read).map_or(1, orientation)
}

/// Cameras and programs write more than they should.
fn reader() -> exif::Reader {
    let mut reader = exif::Reader::new();
    reader.continue_on_error(true);
    reader
}

fn what_can_be_read(error: exif::Error) -> Result<exif::Exif, exif::Error> {
    error.distill_partial_result(|_| {})
}

fn orientation(exif: exif::Exif) -> u32 {
    let field = exif.get_field(Tag::Orientation, In::PRIMARY);
    field.and_then(|field| field.value.get_uint(0)).filter(|it| (1..=8).contains(it)).unwrap_or(1)
}

/// A segment that says that alone: one directory with one entry (Exif 2.32, 4.6.2).
fn only_held(turn: u32) -> Vec<u8> {
    let turn = u8::try_from(turn).unwrap_or(1);
    let directory = [0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, turn, 0, 0, 0, 0, 0, 0];
    [&[0xff, 0xe1, 0, 34], &b"Exif\0\0MM\0*\0\0\0\x08"[..], &directory].concat()
}

fn number(bytes: &[u8]) -> Option<u32> {
    bytes.try_into().ok().map(u32::from_be_bytes)
}

fn short(bytes: &[u8]) -> Option<u32> {
    bytes.try_into().ok().map(u16::from_be_bytes).map(u32::from)
}
