//! Proposes what a misspelt word may have meant.

/// Words longer than this are no misspellings, and comparing them would be slow.
const LONGEST: usize = 60;

/// The candidate that looks most like `word`, if any looks like it at all.
pub fn nearest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    if word.chars().count() > LONGEST {
        return None;
    }
    let plain = |text: &str| text.to_lowercase().replace(['-', ' '], "_");
    let word = plain(word);
    candidates
        .map(|candidate| (strsim::osa_distance(&word, &plain(candidate)), candidate))
        // A third of the letters wrong is a misspelling, more is another word.
        .filter(|&(distance, candidate)| distance * 3 <= candidate.chars().count().max(3))
        .min_by_key(|&(distance, _)| distance)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn misspellings_are_recognised_and_other_words_are_not() {
        let known = ["flow", "temperature", "rigid mast"];
        assert_eq!(nearest("flwo", known.into_iter()), Some("flow"));
        assert_eq!(
            nearest("Temprature", known.into_iter()),
            Some("temperature")
        );
        assert_eq!(nearest("rigid_mast", known.into_iter()), Some("rigid mast"));
        assert_eq!(nearest("colour", known.into_iter()), None);
        assert_eq!(nearest(&"x".repeat(1_000_000), known.into_iter()), None);
    }
}
