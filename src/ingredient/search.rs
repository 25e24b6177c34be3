//! Finding things by any part of their name, accents and case ignored.

/// A text in the form in which it is compared: lower case, without accents, single blanks.
///
/// ```
/// # use nibwright::ingredient::search::fold;
/// assert_eq!(fold("  Crème  FRAÎCHE, 30 % fat"), "creme fraiche, 30 % fat");
/// assert_eq!(fold("Œuf, Gewürz, ß"), "oeuf, gewurz, ss");
/// ```
#[must_use]
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    let mut blank_before = true;
    for character in text.chars().flat_map(char::to_lowercase) {
        if character.is_whitespace() {
            if !blank_before {
                folded.push(' ');
            }
            blank_before = true;
            continue;
        }
        blank_before = false;
        match base_letter(character) {
            Base::Letter(letter) => folded.push(letter),
            Base::Letters(letters) => folded.push_str(letters),
            Base::Nothing => {}
        }
    }
    if folded.ends_with(' ') {
        folded.pop();
    }
    folded
}

/// How well a query fits a text that is already folded: `None` if a word of it occurs nowhere; smaller is better.
///
/// Every word of the query must occur; words that begin the text count most, then words that begin a word.
#[must_use]
pub fn rank(folded_query: &str, folded_text: &str) -> Option<u32> {
    folded_query.split(' ').filter(|word| !word.is_empty()).try_fold(0, |sum, word| {
        let place = folded_text.find(word)?;
        Some(
            sum + if place == 0 {
                0
            } else if is_at_a_beginning(word, folded_text) {
                1
            } else {
                4
            },
        )
    })
}

/// Whether every word of a query begins a word of a text that is already folded.
///
/// ```
/// # use nibwright::ingredient::search::begins_a_word;
/// assert!(begins_a_word("unsalt butter", "butter, unsalted"));
/// assert!(!begins_a_word("salt", "butter, unsalted"));
/// ```
#[must_use]
pub fn begins_a_word(folded_query: &str, folded_text: &str) -> bool {
    folded_query.split(' ').filter(|word| !word.is_empty()).all(|word| is_at_a_beginning(word, folded_text))
}

fn is_at_a_beginning(word: &str, folded_text: &str) -> bool {
    folded_text
        .match_indices(word)
        .any(|(at, _)| folded_text[..at].chars().next_back().is_none_or(|before| !before.is_alphanumeric()))
}

/// How many single letters must change to turn one text into the other (optimal string alignment).
///
/// Two letters exchanged count as one change, because that is what fingers do.
///
/// ```
/// # use nibwright::ingredient::search::distance;
/// assert_eq!(distance("cream-35", "craem-35"), 1);
/// assert_eq!(distance("", "abc"), 3);
/// ```
#[must_use]
pub fn distance(left: &str, right: &str) -> usize {
    let left: Vec<char> = left.chars().collect();
    let right: Vec<char> = right.chars().collect();
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=right.len()).collect();
    for (row, &from) in left.iter().enumerate() {
        let mut current = vec![row + 1];
        for (column, &to) in right.iter().enumerate() {
            let replaced = last[column] + usize::from(from != to);
            let mut best = replaced.min(last[column + 1] + 1).min(current[column] + 1);
            if row > 0 && column > 0 && from == right[column - 1] && left[row - 1] == to {
                best = best.min(before_last[column - 1] + 1);
            }
            current.push(best);
        }
        before_last = std::mem::replace(&mut last, current);
    }
    last.last().copied().unwrap_or(0)
}

enum Base {
    Letter(char),
    Letters(&'static str),
    Nothing,
}

/// The letter without its accent, for the Latin letters of Europe; combining accents vanish.
fn base_letter(character: char) -> Base {
    Base::Letter(match character {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'ā' | 'ă' | 'ą' => 'a',
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => 'c',
        'ď' | 'đ' | 'ð' => 'd',
        'è' | 'é' | 'ê' | 'ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => 'e',
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => 'g',
        'ĥ' | 'ħ' => 'h',
        'ì' | 'í' | 'î' | 'ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => 'i',
        'ĵ' => 'j',
        'ķ' => 'k',
        'ĺ' | 'ļ' | 'ľ' | 'ł' => 'l',
        'ñ' | 'ń' | 'ņ' | 'ň' => 'n',
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'ō' | 'ŏ' | 'ő' => 'o',
        'ŕ' | 'ŗ' | 'ř' => 'r',
        'ś' | 'ŝ' | 'ş' | 'š' | 'ș' => 's',
        'ţ' | 'ť' | 'ŧ' | 'ț' => 't',
        'ù' | 'ú' | 'û' | 'ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' | 'ų' => 'u',
        'ŵ' => 'w',
        'ý' | 'ÿ' | 'ŷ' => 'y',
        'ź' | 'ż' | 'ž' => 'z',
        'æ' => return Base::Letters("ae"),
        'œ' => return Base::Letters("oe"),
        'ß' => return Base::Letters("ss"),
        'þ' => return Base::Letters("th"),
        '\u{300}'..='\u{36f}' => return Base::Nothing,
        other => other,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_must_occur_in_any_order() {
        let cream = fold("Cream, 35 % fat");
        assert!(rank(&fold("35 cream"), &cream).is_some());
        assert!(rank(&fold("cream 40"), &cream).is_none());
        assert!(rank("", &cream).is_some());
    }

    #[test]
    fn the_beginning_of_a_name_counts_more_than_its_middle() {
        let begins = rank("cream", &fold("Cream, 35 % fat"));
        let word = rank("cream", &fold("Coconut cream"));
        let middle = rank("ream", &fold("Coconut cream"));
        assert!(begins < word && word < middle);
    }

    #[test]
    fn letters_with_combining_accents_fold_like_whole_ones() {
        assert_eq!(fold("pure\u{301}e"), fold("purée"));
        assert_eq!(fold("İstanbul"), "istanbul");
    }
}
