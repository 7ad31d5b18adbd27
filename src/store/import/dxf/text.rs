//! Texts without the codes that set their look.

/// The words of a text: `{\fArial;Bed\P1}` is `Bed 1`.
pub(super) fn plain(coded: &str) -> String {
    let mut text = String::new();
    let mut letters = coded.chars();
    while let Some(letter) = letters.next() {
        match letter {
            '{' | '}' => {}
            '\\' => match letters.next() {
                Some('P' | '~') => text.push(' '),
                Some(own @ ('\\' | '{' | '}')) => text.push(own),
                Some('L' | 'l' | 'O' | 'o' | 'K' | 'k') | None => {}
                // A code with a value up to a semicolon.
                Some(_) => letters.by_ref().take_while(|letter| *letter != ';').for_each(drop),
            },
            // `%%u` and the like switch a line under or over the words.
            '%' if letters.as_str().starts_with('%') => {
                letters.by_ref().take(2).for_each(drop);
            }
            letter if letter.is_control() => text.push(' '),
            letter => text.push(letter),
        }
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ").chars().take(120).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_taken_out() {
        for (coded, words) in [
            ("{\\fArial|b0;Bed\\P1}", "Bed 1"),
            ("\\A1;Bath", "Bath"),
            ("{\\LHall}", "Hall"),
            ("a\\", "a"),
            ("%%uBath", "Bath"),
        ] {
            assert_eq!(plain(coded), words, "{coded}");
        }
    }
}
