//! The size of a photograph, from as much of its file as tells whether all of it is there.

/// Width and height of what follows a PNG's signature; `None` unless its chunks run from IHDR to IEND without a gap
/// (PNG, third edition, 5.3 and 5.6).
pub fn png(mut rest: &[u8]) -> Option<(u32, u32)> {
    let mut size = None;
    let mut painted = false;
    loop {
        let length = number(rest.get(..4)?)? as usize;
        let name = rest.get(4..8)?;
        let data = rest.get(8..)?.get(..length)?;
        // The checksum stands behind.
        let after = rest.get(12 + length..)?;
        match (name, size) {
            (b"IHDR", None) => size = Some((number(data.get(..4)?)?, number(data.get(4..8)?)?)),
            (_, None) => return None,
            (b"IDAT", _) => painted = true,
            (b"IEND", _) => return size.filter(|_| painted),
            _ => {}
        }
        rest = after;
    }
}

/// Width and height of what follows a JPEG's start mark; `None` where no frame begins or the end mark is missing
/// (ITU-T T.81, annex B).
pub fn jpeg(rest: &[u8]) -> Option<(u32, u32)> {
    let whole = rest;
    let mut rest = rest;
    loop {
        let [0xff, mark, after @ ..] = rest else { return None };
        match mark {
            // A mark may be filled up with more of the same.
            0xff => rest = rest.get(1..)?,
            // A frame: all of C0 to CF but the tables of Huffman, arithmetic coding and the reserved one.
            0xc0..=0xcf if !matches!(mark, 0xc4 | 0xc8 | 0xcc) => {
                let (height, width) = (short(after.get(3..5)?)?, short(after.get(5..7)?)?);
                let tail = whole.trim_ascii_end();
                let ends = tail.strip_suffix(&[0xff, 0xd9]).is_some();
                return ends.then_some((width, height));
            }
            0x01 | 0xd0..=0xd7 => rest = after,
            0xd8..=0xda => return None,
            _ => rest = after.get(short(after.get(..2)?)? as usize..)?,
        }
    }
}

fn number(bytes: &[u8]) -> Option<u32> {
    bytes.try_into().ok().map(u32::from_be_bytes)
}

fn short(bytes: &[u8]) -> Option<u32> {
    bytes.try_into().ok().map(u16::from_be_bytes).map(u32::from)
}
