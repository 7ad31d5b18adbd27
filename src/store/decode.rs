//! From a tree of values to the plan's own types.

use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, MapAccess, SeqAccess,
    VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;

use super::error::Problem;
use super::fault::{Fault, expecting};
use super::node::{Entry, Node, Value};

/// Decodes one value; the fault it may return knows its place.
pub(super) fn decode<'de, T: serde::Deserialize<'de>>(node: &'de Node<'de>) -> Result<T, Fault> {
    T::deserialize(Decoder(node))
}

#[derive(Clone, Copy)]
struct Decoder<'de>(&'de Node<'de>);

impl<'de> Decoder<'de> {
    /// A fault with this value's place and what stands here.
    fn blame(self, fault: Fault) -> Fault {
        fault.found(|| self.0.describe()).at(self.0.offset)
    }

    fn number<V: Visitor<'de>>(self, text: &str, visitor: V) -> Result<V::Value, Fault> {
        if let Ok(whole) = text.parse::<i64>() {
            return visitor.visit_i64(whole);
        }
        match text.parse::<f64>() {
            Ok(number) if number.is_finite() => visitor.visit_f64(number),
            _ => Err(expecting("a number of a size that can be held")),
        }
    }

    /// As a number, but `1000.0` and `1e3` count as whole, as they do in the
    /// schema.
    fn whole<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        // Up to here every whole number is exact as a float.
        const EXACT_MAX: f64 = 9_007_199_254_740_992.0;
        if let Value::Number(text) = &self.0.value
            && text.contains(['.', 'e', 'E'])
            && let Ok(number) = text.parse::<f64>()
            && libm::trunc(number).to_bits() == number.to_bits()
            && number.abs() < EXACT_MAX
        {
            #[expect(clippy::cast_possible_truncation, reason = "whole and within 2^53")]
            let result = visitor.visit_i64(number as i64);
            return result.map_err(|fault| self.blame(fault));
        }
        self.deserialize_any(visitor)
    }
}

impl<'de> Deserializer<'de> for Decoder<'de> {
    type Error = Fault;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        let result = match &self.0.value {
            Value::Null => visitor.visit_unit(),
            Value::Flag(flag) => visitor.visit_bool(*flag),
            Value::Number(text) => self.number(text, visitor),
            Value::Text(text) => visitor.visit_borrowed_str(text),
            Value::List(items) => visitor.visit_seq(Items { items: items.iter(), index: 0 }),
            Value::Object(entries) => {
                visitor.visit_map(Entries { entries: entries.iter(), held: None })
            }
        };
        result.map_err(|fault| self.blame(fault))
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match self.0.value {
            Value::Null => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match &self.0.value {
            Value::List(items) if items.len() == length => self.deserialize_any(visitor),
            _ => Err(self.blame(expecting(&format!("a list of {length}")))),
        }
    }

    /// A struct is only ever an object with its keys, never a list in their
    /// order.
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match &self.0.value {
            Value::Object(_) => self.deserialize_any(visitor),
            _ => Err(self.blame(expecting("an object"))),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        names: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let access = match &self.0.value {
            Value::Text(text) => Name { node: self.0, text, entry: None },
            Value::Object(entries) if entries.len() == 1 => {
                let (text, entry) =
                    entries.first().map_or((None, None), |(k, e)| (Some(k), Some(e)));
                Name { node: self.0, text: text.map_or("", |key| key), entry }
            }
            _ => return Err(self.blame(expecting(&format!("one of {}", names.join(", "))))),
        };
        visitor.visit_enum(access).map_err(|fault| self.blame(fault))
    }

    fn deserialize_i8<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_i16<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_i32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_i64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_u8<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_u16<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    fn deserialize_u64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.whole(visitor)
    }

    forward_to_deserialize_any! {
        bool i128 u128 f32 f64 char str string bytes byte_buf unit unit_struct seq tuple_struct
        map identifier ignored_any
    }
}

struct Items<'de> {
    items: std::slice::Iter<'de, Node<'de>>,
    index: usize,
}

impl<'de> SeqAccess<'de> for Items<'de> {
    type Error = Fault;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, Fault> {
        let Some(item) = self.items.next() else { return Ok(None) };
        let index = self.index;
        self.index += 1;
        let item = Decoder(item);
        seed.deserialize(item).map(Some).map_err(|fault| item.blame(fault).item(index))
    }
}

struct Entries<'de> {
    entries: indexmap::map::Iter<'de, std::borrow::Cow<'de, str>, Entry<'de>>,
    held: Option<(&'de str, &'de Node<'de>)>,
}

impl<'de> MapAccess<'de> for Entries<'de> {
    type Error = Fault;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, Fault> {
        let Some((key, entry)) = self.entries.next() else { return Ok(None) };
        self.held = Some((key, &entry.node));
        let key: &'de str = key;
        seed.deserialize(serde::de::value::BorrowedStrDeserializer::new(key))
            .map(Some)
            .map_err(|fault: Fault| fault.at(entry.key_offset).under(key))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, Fault> {
        let (key, node) = self.held.take().expect("serde asks for a value after its key");
        // A value may be refused after it was decoded, so it is blamed here too.
        let value = Decoder(node);
        seed.deserialize(value).map_err(|fault| value.blame(fault).under(key))
    }
}

/// The name of a variant, alone or with what it holds.
struct Name<'de> {
    node: &'de Node<'de>,
    text: &'de str,
    entry: Option<&'de Entry<'de>>,
}

impl<'de> EnumAccess<'de> for Name<'de> {
    type Error = Fault;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), Fault> {
        match seed.deserialize(self.text.into_deserializer()) {
            Ok(value) => Ok((value, self)),
            Err(fault) => {
                let fault: Fault = fault;
                Err(match self.entry {
                    Some(entry) => fault.at(entry.key_offset).under(self.text),
                    None => fault,
                })
            }
        }
    }
}

impl<'de> Name<'de> {
    /// What the variant holds; a fault where its name stands alone.
    fn held(&self) -> Result<Decoder<'de>, Fault> {
        self.entry.map(|entry| Decoder(&entry.node)).ok_or_else(|| {
            let expected = format!("{{\"{}\": …}}", self.text);
            Decoder(self.node)
                .blame(Fault::new(Problem::Unexpected { found: String::new(), expected }))
        })
    }
}

impl<'de> VariantAccess<'de> for Name<'de> {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        match self.entry {
            None => Ok(()),
            Some(_) => Err(Decoder(self.node).blame(expecting(&format!("\"{}\"", self.text)))),
        }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, Fault> {
        let held = self.held()?;
        seed.deserialize(held).map_err(|fault| held.blame(fault).under(self.text))
    }

    fn tuple_variant<V: Visitor<'de>>(self, length: usize, visitor: V) -> Result<V::Value, Fault> {
        let held = self.held()?;
        held.deserialize_tuple(length, visitor).map_err(|fault| fault.under(self.text))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let held = self.held()?;
        held.deserialize_struct("", fields, visitor).map_err(|fault| fault.under(self.text))
    }
}
