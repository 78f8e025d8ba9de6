//! A digest of a set that can be kept up to date: the sum, modulo 2^256, of one SHA-256 per item.
//!
//! The item's hash covers the length of its key (8 bytes, big-endian), the key and the content's own SHA-256. The order
//! of items does not matter, and taking an item out is subtracting it. It finds damage and lost rows; it is not meant to
//! withstand someone who may choose a great many rows in order to forge a sum.

use sha2::{Digest as _, Sha256};

const LIMBS: usize = 4;

/// SHA-256 of some bytes.
pub(crate) fn sha256(bytes: &[u8]) -> [u8; 32] {
    Sha256::digest(bytes).into()
}

/// Sum of the hashes of a set's items; all zero for an empty set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct SetDigest([u64; LIMBS]);

impl SetDigest {
    /// Puts an item in.
    pub fn add(&mut self, key: &[u8], content: &[u8]) {
        let mut carry = false;
        for (limb, item) in self.0.iter_mut().zip(item(key, content)) {
            let (sum, first) = limb.overflowing_add(item);
            let (sum, second) = sum.overflowing_add(u64::from(carry));
            (*limb, carry) = (sum, first || second);
        }
    }

    /// Takes an item out.
    pub fn subtract(&mut self, key: &[u8], content: &[u8]) {
        let mut borrow = false;
        for (limb, item) in self.0.iter_mut().zip(item(key, content)) {
            let (difference, first) = limb.overflowing_sub(item);
            let (difference, second) = difference.overflowing_sub(u64::from(borrow));
            (*limb, borrow) = (difference, first || second);
        }
    }

    /// As 32 bytes, most significant first.
    pub fn to_bytes(self) -> [u8; 32] {
        let mut bytes = [0; 32];
        for (chunk, limb) in bytes.rchunks_exact_mut(8).zip(self.0) {
            chunk.copy_from_slice(&limb.to_be_bytes());
        }
        bytes
    }

    /// From [`Self::to_bytes`]; `None` when there are not 32 of them.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let bytes: [u8; 32] = bytes.try_into().ok()?;
        Some(Self(limbs(&bytes)))
    }
}

fn item(key: &[u8], content: &[u8]) -> [u64; LIMBS] {
    let mut hash = Sha256::new();
    hash.update((key.len() as u64).to_be_bytes());
    hash.update(key);
    hash.update(content);
    limbs(&hash.finalize().into())
}

/// Least significant first.
fn limbs(bytes: &[u8; 32]) -> [u64; LIMBS] {
    let mut limbs = [0; LIMBS];
    for (limb, chunk) in limbs.iter_mut().zip(bytes.rchunks_exact(8)) {
        *limb = chunk.iter().fold(0, |value, byte| value << 8 | u64::from(*byte));
    }
    limbs
}

/// As people read it.
pub(crate) fn hex(bytes: &[u8]) -> String {
    use std::fmt::Write as _;
    bytes.iter().fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
        // Writing into a String cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn the_hash_is_the_published_one() {
        // The one-block example of the Secure Hash Standard.
        assert_eq!(hex(&sha256(b"abc")), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    proptest! {
        #[test]
        fn order_does_not_matter_and_taking_out_undoes_putting_in(
            items in prop::collection::vec((".{0,8}", any::<[u8; 32]>()), 0..20),
            more in prop::collection::vec((".{0,8}", any::<[u8; 32]>()), 0..20),
        ) {
            let mut forward = SetDigest::default();
            items.iter().for_each(|(key, content)| forward.add(key.as_bytes(), content));
            let mut backward = SetDigest::default();
            items.iter().rev().for_each(|(key, content)| backward.add(key.as_bytes(), content));
            prop_assert_eq!(forward, backward);
            more.iter().for_each(|(key, content)| forward.add(key.as_bytes(), content));
            more.iter().for_each(|(key, content)| forward.subtract(key.as_bytes(), content));
            prop_assert_eq!(forward, backward);
            prop_assert_eq!(SetDigest::from_bytes(&forward.to_bytes()), Some(forward));
        }
    }
}
