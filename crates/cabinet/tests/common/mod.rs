//! What the tests share: records made at random, exports.

pub(crate) mod make;
pub(crate) mod zip;

/// Whether the full counts were asked for.
pub(crate) fn deep() -> bool {
    std::env::var_os("PRESSMARK_DEEP").is_some()
}

/// Uniform 64 bits by `SplitMix64` (published: Steele, Lea and Flood, OOPSLA 2014, figure 17).
#[derive(Debug, Clone)]
pub(crate) struct Random(pub u64);

impl Random {
    pub(crate) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub(crate) fn below(&mut self, n: usize) -> usize {
        (self.bits() % n.max(1) as u64) as usize
    }

    pub(crate) fn one_in(&mut self, n: usize) -> bool {
        self.below(n) == 0
    }

    pub(crate) fn pick<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len())]
    }

    pub(crate) fn uuid(&mut self) -> cabinet::record::Uuid {
        let mut bytes = [0; 16];
        bytes.iter_mut().for_each(|b| *b = self.bits() as u8);
        cabinet::record::Uuid::of_random(bytes)
    }
}
