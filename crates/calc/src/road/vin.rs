//! The check digit of a vehicle identification number (49 CFR 565.15; the weights and the values of the letters are from
//! memory).

/// How many characters a number has.
pub const LENGTH: usize = 17;
/// What each place weighs; the ninth, the check digit itself, weighs nothing.
const WEIGHTS: [u32; LENGTH] = [8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2];

/// What a character counts. I, O and Q are not used, so that nobody takes them for 1 and 0.
fn counts(letter: char) -> Option<u32> {
    if let Some(digit) = letter.to_digit(10) {
        return Some(digit);
    }
    let rows = ["ABCDEFGH", "JKLMN.P.R", ".STUVWXYZ"];
    let at = rows.iter().find_map(|row| row.find(letter).filter(|_| letter.is_ascii_uppercase()))?;
    u32::try_from(at + 1).ok()
}

/// What is wrong with a number as it is written: its length, a character that none has, or a check digit that does not
/// follow from the rest; nothing where it holds. A number that holds may still be another trailer's.
///
/// ```
/// use pintle_calc::road::vin::wrong_with;
///
/// assert_eq!(wrong_with("11111111111111111"), None);
/// assert_eq!(wrong_with("1M8GDM9AXKP042788"), None);
/// assert!(wrong_with("1M8GDM9AXKP042789").is_some());
/// assert!(wrong_with("1M8GDM9AXKP04278").is_some());
/// ```
pub fn wrong_with(number: &str) -> Option<String> {
    let letters: Vec<char> = number.chars().collect();
    if letters.len() != LENGTH {
        return Some(format!("it has {} characters in place of {LENGTH}", letters.len()));
    }
    let mut sum = 0;
    for (letter, weight) in letters.iter().zip(WEIGHTS) {
        let Some(value) = counts(*letter) else {
            return Some(format!("`{letter}` is in no number"));
        };
        sum += value * weight;
    }
    let check = match sum % 11 {
        10 => 'X',
        rest => char::from_digit(rest, 10)?,
    };
    let written = letters.get(8)?;
    (*written != check)
        .then(|| format!("its ninth character is `{written}`, and the others make it `{check}`"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_letter_counts_by_its_place_in_its_row() {
        let values: Vec<u32> =
            "ABCDEFGHJKLMNPRSTUVWXYZ".chars().map(|letter| counts(letter).unwrap()).collect();
        assert_eq!(values, [1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4, 5, 7, 9, 2, 3, 4, 5, 6, 7, 8, 9]);
        for none in ['I', 'O', 'Q', '.', 'a', 'Ä'] {
            assert_eq!(counts(none), None, "{none}");
        }
    }

    #[test]
    fn one_wrong_character_is_noticed() {
        let sound = "1M8GDM9AXKP042788";
        for at in 0..LENGTH {
            for other in "0123456789".chars() {
                let mut letters: Vec<char> = sound.chars().collect();
                letters[at] = other;
                let changed: String = letters.into_iter().collect();
                let alike = counts(other) == sound.chars().nth(at).and_then(counts) && at != 8;
                assert_eq!(wrong_with(&changed).is_none(), changed == sound || alike, "{changed}");
            }
        }
    }

    #[test]
    fn two_neighbours_changed_over_are_noticed() {
        assert!(wrong_with("1M8GDM9AXKP024788").is_some());
    }
}
