//! HTML text, every word of it escaped.

/// HTML as it grows.
#[derive(Clone, Debug, Default)]
pub(crate) struct Html(String);

impl Html {
    /// Markup of our own, as it is.
    pub(crate) fn raw(&mut self, markup: &str) -> &mut Self {
        self.0.push_str(markup);
        self
    }

    /// Words of the plan, escaped for text and for attributes in quotes.
    pub(crate) fn text(&mut self, words: &str) -> &mut Self {
        for sign in words.chars() {
            match sign {
                '&' => self.0.push_str("&amp;"),
                '<' => self.0.push_str("&lt;"),
                '>' => self.0.push_str("&gt;"),
                '"' => self.0.push_str("&quot;"),
                '\'' => self.0.push_str("&#39;"),
                sign if sign.is_control() => self.0.push(' '),
                sign => self.0.push(sign),
            }
        }
        self
    }

    /// An element with nothing but words in it.
    pub(crate) fn element(&mut self, name: &str, words: &str) -> &mut Self {
        self.raw("<").raw(name).raw(">").text(words).raw("</").raw(name).raw(">\n")
    }

    /// All of it.
    pub(crate) fn done(self) -> String {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_stay_words() {
        let mut html = Html::default();
        html.element("p", "</script><b a=\"x\" b='y'>&\u{7}");
        let expect = "<p>&lt;/script&gt;&lt;b a=&quot;x&quot; b=&#39;y&#39;&gt;&amp; </p>\n";
        assert_eq!(html.done(), expect, "escaped");
    }
}
