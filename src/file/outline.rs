//! Where things stand in the text of a file: brackets, keys, values.
//!
//! The reader of RON says what is wrong but not always where, and nothing of places in a file that it could read. This
//! reader knows no grammar beyond brackets, colons and commas; any text has an outline, however broken.

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

/// A step from a value to a value inside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// To the value of this key.
    Key(&'static str),
    /// To the item at this index.
    Item(usize),
}

/// The bytes of the value that the steps lead to from the whole file; of the last that is there.
pub fn find(text: &str, steps: &[Step]) -> Range<usize> {
    let mut tokens = Tokens::of(text);
    let mut found = value(&mut tokens.clone());
    for step in steps {
        let inside = match step {
            Step::Key(key) => enter(&mut tokens) && skip_to_key(&mut tokens, key),
            Step::Item(index) => enter(&mut tokens) && (0..*index).all(|_| skip_item(&mut tokens)),
        };
        if !inside {
            break;
        }
        found = value(&mut tokens.clone());
    }
    found
}

/// Steps over an opening bracket and the name that may stand before it.
fn enter(tokens: &mut Tokens) -> bool {
    match tokens.next().map(|token| token.kind) {
        Some(Kind::Open) => true,
        Some(Kind::Word) => tokens.next().is_some_and(|token| token.kind == Kind::Open),
        _ => false,
    }
}

fn skip_to_key(tokens: &mut Tokens, wanted: &str) -> bool {
    loop {
        let mut ahead = tokens.clone();
        let (Some(key), Some(colon)) = (ahead.next(), ahead.next()) else {
            return false;
        };
        if colon.kind == Kind::Colon && tokens.text(&key) == wanted {
            *tokens = ahead;
            return true;
        }
        if !skip_item(tokens) {
            return false;
        }
    }
}

/// Steps over what stands up to the next comma of this level, and the comma; false when there is none.
fn skip_item(tokens: &mut Tokens) -> bool {
    value(tokens);
    tokens.next().is_some_and(|token| token.kind == Kind::Comma)
}

/// Steps over a value; gives its bytes.
fn value(tokens: &mut Tokens) -> Range<usize> {
    let mut found: Option<Range<usize>> = None;
    let mut depth = 0usize;
    loop {
        let mut ahead = tokens.clone();
        let Some(token) = ahead.next() else { break };
        match token.kind {
            Kind::Open => depth += 1,
            Kind::Comma if depth == 0 => break,
            Kind::Close if depth == 0 => break,
            Kind::Close => depth -= 1,
            _ => {}
        }
        *tokens = ahead;
        found = Some(found.map_or(token.at.start, |found| found.start)..token.at.end);
    }
    found.unwrap_or(tokens.at..tokens.at)
}

/// The last token that ends at or before a byte.
pub fn token_before(text: &str, at: usize) -> Option<Token> {
    Tokens::of(text).take_while(|token| token.at.end <= at).last()
}

/// The first token that starts at or after a byte.
pub fn token_after(text: &str, at: usize) -> Option<Token> {
    Tokens::of(text).find(|token| token.at.start >= at)
}

/// The token that a byte is in.
pub fn token_at(text: &str, at: usize) -> Option<Token> {
    Tokens::of(text)
        .find(|token| token.at.end > at)
        .filter(|token| token.at.start <= at)
}

/// The innermost bracket that is open at a byte, with the name before it.
pub fn open_at(text: &str, at: usize) -> Option<Range<usize>> {
    let mut open: Vec<Range<usize>> = Vec::new();
    let mut name: Option<Range<usize>> = None;
    for token in Tokens::of(text).take_while(|token| token.at.start < at) {
        match token.kind {
            Kind::Open => open.push(name.take().map_or(token.at.start, |name| name.start)..token.at.end),
            Kind::Close => drop(open.pop()),
            _ => {}
        }
        name = (token.kind == Kind::Word).then_some(token.at);
    }
    open.pop()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TEXT: &str = r##"// joints: [
        Job(version: 1, /* runs: /* [ */ ] */ joints: [
            (id: 1, at: (0, 0, 0), label: "runs: [(id: \" 9)]"),
            (id: 2, at: (1, 0, 0), device: valve(kind: plug), label: r#"a")"#),
        ],
        runs: [(id: 7, from: 1, to: 2)])"##;

    #[track_caller]
    fn check(steps: &[Step], expected: &str) {
        assert_eq!(&TEXT[find(TEXT, steps)], expected);
    }

    #[test]
    fn steps_lead_to_a_value() {
        use Step::{Item, Key};
        check(&[Key("version")], "1");
        check(&[Key("runs"), Item(0), Key("to")], "2");
        check(&[Key("joints"), Item(1), Key("id")], "2");
        check(&[Key("joints"), Item(1), Key("at"), Item(0)], "1");
        check(&[Key("joints"), Item(1), Key("device")], "valve(kind: plug)");
        check(&[Key("joints"), Item(1), Key("device"), Key("kind")], "plug");
        check(&[Key("joints"), Item(1), Key("label")], r##"r#"a")"#"##);
        check(&[Key("runs")], "[(id: 7, from: 1, to: 2)]");
    }

    #[test]
    fn steps_that_lead_nowhere_end_where_they_can() {
        use Step::{Item, Key};
        check(&[Key("runs"), Item(5)], "[(id: 7, from: 1, to: 2)]");
        check(&[Key("runs"), Item(0), Key("length")], "(id: 7, from: 1, to: 2)");
    }

    #[test]
    fn the_open_bracket_is_found_with_its_name() {
        let at = TEXT.find("plug").unwrap();
        assert_eq!(&TEXT[open_at(TEXT, at).unwrap()], "valve(");
        assert_eq!(open_at(TEXT, TEXT.len()), None);
        assert_eq!(open_at("((((", 2), Some(1..2));
    }

    proptest! {
        #[test]
        fn any_text_has_an_outline(text in "[a-zé0-9:,()\\[\\]{}\"'#r/*\\\\\n ]{0,60}", at in 0usize..70) {
            let mut end = 0;
            for token in Tokens::of(&text) {
                prop_assert!(token.at.start >= end && token.at.end > token.at.start);
                end = token.at.end;
            }
            let found = find(&text, &[Step::Key("a"), Step::Item(1), Step::Key("b")]);
            prop_assert!(text.get(found).is_some());
            token_before(&text, at);
            token_after(&text, at);
            token_at(&text, at);
            open_at(&text, at);
        }
    }
}
