//! What stands around every stored value: 1 byte envelope version, 4 bytes CRC32C of the payload (big-endian), payload.
//!
//! The payload is a protobuf message, so fields may be added by protobuf's rules without a new envelope version.

use prost::Message;

use super::engine::Tree;
use crate::error::Corrupt;

/// The only version there is.
const VERSION: u8 = 1;
const HEADER_BYTES: usize = 5;

/// Wraps a payload.
pub(crate) fn seal(payload: &[u8]) -> Vec<u8> {
    let mut sealed = Vec::with_capacity(HEADER_BYTES + payload.len());
    sealed.push(VERSION);
    sealed.extend_from_slice(&crc32c::crc32c(payload).to_be_bytes());
    sealed.extend_from_slice(payload);
    sealed
}

/// Encodes and wraps a message.
pub(crate) fn seal_message(message: &impl Message) -> Vec<u8> {
    seal(&message.encode_to_vec())
}

/// Takes the payload out, having checked it.
pub(crate) fn open<'a>(tree: Tree, key: &[u8], sealed: &'a [u8]) -> Result<&'a [u8], Corrupt> {
    let corrupt = |why: String| Corrupt::new(tree.name(), key, why);
    let Some((header, payload)) = sealed.split_first_chunk::<HEADER_BYTES>() else {
        return Err(corrupt(format!("wanted at least {HEADER_BYTES} bytes, found {}", sealed.len())));
    };
    let [version, checksum @ ..] = *header;
    if version != VERSION {
        return Err(corrupt(format!("wanted envelope version {VERSION}, found {version}")));
    }
    let (wanted, found) = (u32::from_be_bytes(checksum), crc32c::crc32c(payload));
    if wanted != found {
        return Err(corrupt(format!("wanted checksum {wanted:08x}, found {found:08x}")));
    }
    Ok(payload)
}

/// Takes a message out, having checked it.
pub(crate) fn open_message<M: Message + Default>(
    tree: Tree,
    key: &[u8],
    sealed: &[u8],
) -> Result<M, Corrupt> {
    let payload = open(tree, key, sealed)?;
    M::decode(payload).map_err(|error| Corrupt::new(tree.name(), key, format!("wanted a message: {error}")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_checksum_is_the_published_one() {
        // Check value of CRC-32C in the catalogue of parametrised CRC algorithms.
        assert_eq!(seal(b"123456789").get(..5), Some([1, 0xE3, 0x06, 0x92, 0x83].as_slice()));
    }

    #[test]
    fn every_flipped_bit_and_every_cut_is_found() {
        let sealed = seal(b"spacer 1.85 mm");
        assert!(open(Tree::Rows, b"k", &sealed).is_ok());
        for bit in 0..sealed.len() * 8 {
            let mut damaged = sealed.clone();
            damaged[bit / 8] ^= 1 << (bit % 8);
            assert!(open(Tree::Rows, b"k", &damaged).is_err(), "bit {bit}");
        }
        for cut in 0..sealed.len() {
            assert!(open(Tree::Rows, b"k", &sealed[..cut]).is_err(), "cut to {cut}");
        }
    }
}
