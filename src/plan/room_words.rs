//! Words by which rooms are known in many languages.

use std::sync::LazyLock;

use super::RoomUse;

/// A beginning of a word in the name of a room, and what it stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoomWord {
    /// The beginning, in small letters.
    pub word: String,
    /// What such a room is used for. None: a shaft, which no one uses.
    pub usage: Option<RoomUse>,
    /// The language, as two letters.
    pub language: String,
}

/// The table, longer words first.
static WORDS: LazyLock<Vec<RoomWord>> = LazyLock::new(|| {
    let text = include_str!("../../assets/room_words.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let row = |row: csv::StringRecord| {
        let cell = |index: usize| row.get(index).unwrap_or("").to_owned();
        let usage = RoomUse::ALL.into_iter().find(|usage| usage.key() == cell(1));
        RoomWord { word: cell(0), usage, language: cell(2) }
    };
    reader.records().filter_map(Result::ok).map(row).collect()
});

/// The longest word of the table with which some word of a name begins; of
/// equally long ones that which comes first in the name.
#[must_use]
pub fn room_word(name: &str) -> Option<&'static RoomWord> {
    let name = name.to_lowercase();
    let begins = |at: &usize| !name[..*at].ends_with(|before: char| before.is_alphabetic());
    let place = |word: &RoomWord| {
        name.match_indices(word.word.as_str()).map(|(at, _)| at).find(|at| begins(at))
    };
    let found = WORDS.iter().filter_map(|word| Some((place(word)?, word)));
    found.min_by_key(|(at, word)| (std::cmp::Reverse(word.word.len()), *at)).map(|(_, word)| word)
}

impl RoomUse {
    /// Every use that a name can tell.
    pub const ALL: [Self; 13] = [
        Self::Living,
        Self::Dining,
        Self::Kitchen,
        Self::Bedroom,
        Self::Bathroom,
        Self::Toilet,
        Self::Laundry,
        Self::Hall,
        Self::Stair,
        Self::Study,
        Self::Garage,
        Self::Store,
        Self::Outdoor,
    ];

    /// The use as tables name it.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Living => "living",
            Self::Dining => "dining",
            Self::Kitchen => "kitchen",
            Self::Bedroom => "bedroom",
            Self::Bathroom => "bathroom",
            Self::Toilet => "toilet",
            Self::Laundry => "laundry",
            Self::Hall => "hall",
            Self::Stair => "stair",
            Self::Study => "study",
            Self::Garage => "garage",
            Self::Store => "store",
            Self::Outdoor => "outdoor",
            Self::Other => "other",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_many_languages_are_known_and_the_longer_one_counts() {
        let usage = |name: &str| room_word(name).and_then(|word| word.usage);
        for (name, expected) in [
            ("Bedroom 2", RoomUse::Bedroom),
            ("Schlafzimmer", RoomUse::Bedroom),
            ("Salle à manger", RoomUse::Dining),
            ("SALLE DE BAIN", RoomUse::Bathroom),
            ("Küche", RoomUse::Kitchen),
            ("cocina", RoomUse::Kitchen),
            ("Badezimmer", RoomUse::Bathroom),
            ("Bad", RoomUse::Bathroom),
            ("Sala de jantar", RoomUse::Dining),
            ("Olohuone", RoomUse::Living),
            ("Garderoba", RoomUse::Store),
            ("Upper landing", RoomUse::Hall),
            ("Living_Dining 2", RoomUse::Living),
            ("Dining_Living 2", RoomUse::Dining),
        ] {
            assert_eq!(usage(name), Some(expected), "{name}");
        }
        assert!(room_word("Raum 3").is_none(), "says nothing");
        assert_eq!(room_word("Elevator 1").map(|word| word.usage), Some(None), "a shaft");
        let shaft = |word: &str| {
            include_str!("../../assets/room_words.csv").contains(&format!("\n{word},shaft,"))
        };
        assert!(WORDS.iter().all(|word| word.usage.is_some() || shaft(&word.word)), "known uses");
    }
}
