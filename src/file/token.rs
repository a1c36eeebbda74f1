//! The words and signs of a file, each with its bytes; comments and spaces left out.
//!
//! Every text falls into tokens, however broken it is, in one pass.

use std::ops::Range;

/// What kind of sign or word a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// One of `(`, `[`, `{`.
    Open,
    /// One of `)`, `]`, `}`.
    Close,
    /// `:`
    Colon,
    /// `,`
    Comma,
    /// A text in quotes.
    Quoted,
    /// A number, a key, or a word.
    Word,
    /// Any other sign.
    Other,
}

/// A token and its bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Where it is.
    pub at: Range<usize>,
}

/// The tokens of a text, comments and spaces left out.
#[derive(Clone)]
pub struct Tokens<'a> {
    text: &'a str,
    at: usize,
}

impl<'a> Tokens<'a> {
    /// The tokens of `text`.
    pub fn of(text: &'a str) -> Tokens<'a> {
        Tokens { text, at: 0 }
    }

    /// The text of a token.
    pub fn text(&self, token: &Token) -> &'a str {
        &self.text[token.at.clone()]
    }

    /// The byte where the next token is looked for.
    pub fn reached(&self) -> usize {
        self.at
    }

    fn skip_space_and_comments(&mut self) {
        loop {
            let rest = &self.text[self.at..];
            let trimmed = rest.trim_start();
            self.at += rest.len() - trimmed.len();
            if trimmed.starts_with("//") {
                self.at += trimmed.find('\n').unwrap_or(trimmed.len());
            } else if trimmed.starts_with("/*") {
                self.at += block_comment(trimmed);
            } else {
                return;
            }
        }
    }
}

impl Iterator for Tokens<'_> {
    type Item = Token;

    fn next(&mut self) -> Option<Token> {
        self.skip_space_and_comments();
        let rest = &self.text[self.at..];
        let first = rest.chars().next()?;
        let (kind, length) = match first {
            '(' | '[' | '{' => (Kind::Open, 1),
            ')' | ']' | '}' => (Kind::Close, 1),
            ':' => (Kind::Colon, 1),
            ',' => (Kind::Comma, 1),
            '"' => (Kind::Quoted, quoted(rest)),
            'r' if raw(rest).is_some() => (Kind::Quoted, raw(rest).unwrap_or(rest.len())),
            _ if is_word(first) => (Kind::Word, rest.find(|symbol| !is_word(symbol)).unwrap_or(rest.len())),
            _ => (Kind::Other, first.len_utf8()),
        };
        let start = self.at;
        self.at += length;
        Some(Token {
            kind,
            at: start..self.at,
        })
    }
}

fn is_word(symbol: char) -> bool {
    symbol.is_alphanumeric() || matches!(symbol, '_' | '.' | '+' | '-')
}

/// Bytes of the comment, comments inside it included, that `text` starts with.
fn block_comment(text: &str) -> usize {
    let bytes = text.as_bytes();
    let (mut at, mut depth) = (2, 1);
    while depth > 0 && at < bytes.len() {
        match bytes[at..] {
            [b'/', b'*', ..] => (at, depth) = (at + 2, depth + 1),
            [b'*', b'/', ..] => (at, depth) = (at + 2, depth - 1),
            _ => at += 1,
        }
    }
    at
}

/// Bytes of the text in quotes that `text` starts with.
fn quoted(text: &str) -> usize {
    let mut escaped = false;
    for (at, byte) in text.bytes().enumerate().skip(1) {
        match byte {
            _ if escaped => escaped = false,
            b'\\' => escaped = true,
            b'"' => return at + 1,
            _ => {}
        }
    }
    text.len()
}

/// Bytes of the text in raw quotes, `r#"…"#`, that `text` starts with, if it does.
fn raw(text: &str) -> Option<usize> {
    let hashes = text[1..].bytes().take_while(|byte| *byte == b'#').count();
    let body = text[1 + hashes..].strip_prefix('"')?;
    let end = format!("\"{}", "#".repeat(hashes));
    Some(body.find(&end).map_or(text.len(), |at| 2 + hashes + at + end.len()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(text: &str, expected: &[&str]) {
        let tokens = Tokens::of(text);
        let found: Vec<&str> = tokens.clone().map(|token| tokens.text(&token)).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn a_text_falls_into_words_and_signs() {
        check("(id: -3.5, // note: (\n b)", &["(", "id", ":", "-3.5", ",", "b", ")"]);
        check("a /* b /* c */ d */ e /* f", &["a", "e"]);
        check(r#""12'-6\" x" y"#, &[r#""12'-6\" x""#, "y"]);
        check(
            r##"r#"a "b" c"# run r"d" r"##,
            &[r##"r#"a "b" c"#"##, "run", r#"r"d""#, "r"],
        );
        check("\"not closed", &["\"not closed"]);
        check("½é;", &["½é", ";"]);
    }

    proptest! {
        #[test]
        fn tokens_stand_in_order(text in "[a-zé0-9:,()\\[\\]{}\"'#r/*\\\\\n ]{0,60}") {
            let mut end = 0;
            for token in Tokens::of(&text) {
                prop_assert!(token.at.start >= end && token.at.end > token.at.start);
                end = token.at.end;
            }
            prop_assert!(text.get(end..).is_some());
        }
    }
}
