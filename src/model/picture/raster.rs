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

/// How the segment of a colour profile begins (ICC.1, annex B.4).
const COLOURS: &[u8] = b"ICC_PROFILE\0";

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

/// The JPEG behind its start mark, up to its end mark: some cameras put further pictures behind. `None` where no frame
/// begins or the end mark is missing (ITU-T T.81, annex B).
pub fn jpeg(rest: &[u8]) -> Option<Photograph> {
    let mut bytes = vec![0xff, 0xd8];
    let mut turn = 1;
    let mut size = None;
    let mut rest = rest;
    loop {
        let [0xff, mark, after @ ..] = rest else { return None };
        match mark {
            // A mark may be filled up with more of the same.
            0xff => rest = rest.get(1..)?,
            0x01 | 0xd0..=0xd7 => {
                bytes.extend([0xff, *mark]);
                rest = after;
            }
            0xd9 => {
                let (width, height) = size?;
                bytes.extend([0xff, 0xd9]);
                let (width, height) = if turn < 5 { (width, height) } else { (height, width) };
                return Some(Photograph { width, height, bytes });
            }
            0xd8 => return None,
            _ => {
                let (segment, next) = after.split_at_checked(short(after.get(..2)?)? as usize)?;
                let data = segment.get(2..)?;
                let mut next = next;
                match mark {
                    // What the camera and programs tell; only how to hold the picture is kept.
                    0xe1 => {
                        let held = data.strip_prefix(b"Exif\0\0").map_or(1, held);
                        if turn == 1 && held != 1 {
                            turn = held;
                            bytes.extend(only_held(turn));
                        }
                    }
                    // What colours mean is kept besides.
                    0xe2 if !data.starts_with(COLOURS) => {}
                    0xe3..=0xed | 0xef | 0xfe => {}
                    _ => bytes.extend([&[0xff, *mark], segment].concat()),
                }
                match mark {
                    // A frame: all of C0 to CF but the tables of Huffman, arithmetic coding and the reserved one.
                    0xc0..=0xcf if !matches!(mark, 0xc4 | 0xc8 | 0xcc) => {
                        let (height, width) = (short(data.get(1..3)?)?, short(data.get(3..5)?)?);
                        size = size.or(Some((width, height)));
                    }
                    0xda => {
                        size?;
                        let (scan, behind) = next.split_at_checked(scan(next))?;
                        bytes.extend_from_slice(scan);
                        next = behind;
                    }
                    _ => {}
                }
                rest = next;
            }
        }
    }
}

/// How long the coded picture is that follows the head of a scan: up to a mark that is neither a restart nor a byte
/// FF of the picture itself (ITU-T T.81, B.1.1.5).
fn scan(rest: &[u8]) -> usize {
    let ends = |pair: &[u8]| matches!(pair, [0xff, mark] if !matches!(mark, 0x00 | 0xd0..=0xd7));
    rest.windows(2).position(ends).unwrap_or(rest.len())
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
