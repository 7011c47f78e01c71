//! "Did you mean": a few known words close to an unknown one.

/// Comparisons one file may cost; past them nothing is suggested, so that thousands of unknown names among
/// thousands of known ones stay cheap.
const BUDGET: u32 = 200_000;
/// Suggestions for one word.
const MOST: usize = 3;
/// In bytes; longer words are not compared.
const LONGEST: usize = 64;

/// Finds near words while its budget lasts.
#[derive(Debug)]
pub(super) struct Near {
    budget: u32,
}

impl Default for Near {
    fn default() -> Near {
        Near { budget: BUDGET }
    }
}

impl Near {
    /// At most three of `known` that `wanted` may have been meant as, nearest first.
    pub(super) fn among<'k>(&mut self, wanted: &str, known: impl Iterator<Item = &'k str>) -> Vec<String> {
        let length = wanted.chars().count();
        if length == 0 || wanted.len() > LONGEST {
            return Vec::new();
        }
        let allowed = length.div_ceil(3).min(3);
        let mut found: Vec<(usize, &str)> = Vec::new();
        for word in known {
            let Some(left) = self.budget.checked_sub(1) else { break };
            self.budget = left;
            if word.len().abs_diff(wanted.len()) > allowed * 4 || word.len() > LONGEST {
                continue;
            }
            let apart =
                if word.eq_ignore_ascii_case(wanted) { 0 } else { strsim::osa_distance(word, wanted) };
            if apart <= allowed && apart < length {
                found.push((apart, word));
            }
        }
        found.sort_unstable();
        found.dedup();
        found.into_iter().take(MOST).map(|(_, word)| word.to_owned()).collect()
    }
}
