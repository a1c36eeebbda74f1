//! Shortcuts as data, as they are printed on keys.

use std::fmt;

/// A key by what is printed on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Cap {
    /// A letter, in capitals.
    Letter(char),
    /// A digit of the upper row.
    Digit(u8),
    /// A function key.
    F(u8),
    /// Plus.
    Plus,
    /// Minus.
    Minus,
    /// Enter.
    Enter,
    /// Escape.
    Escape,
    /// Backspace.
    Backspace,
    /// Delete.
    Delete,
    /// The space bar.
    Space,
    /// Arrow up.
    Up,
    /// Arrow down.
    Down,
    /// Arrow left.
    Left,
    /// Arrow right.
    Right,
    /// Home.
    Home,
    /// End.
    End,
    /// Page up.
    PageUp,
    /// Page down.
    PageDown,
}

/// A key with those held down beside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Shortcut {
    /// Whether Ctrl is held (the command key on a Mac).
    pub ctrl: bool,
    /// Whether Shift is held.
    pub shift: bool,
    /// Whether Alt is held.
    pub alt: bool,
    /// The key.
    pub cap: Cap,
}

impl Shortcut {
    /// The key alone.
    pub const fn plain(cap: Cap) -> Shortcut {
        Shortcut {
            ctrl: false,
            shift: false,
            alt: false,
            cap,
        }
    }

    /// With Ctrl.
    pub const fn ctrl(cap: Cap) -> Shortcut {
        Shortcut {
            ctrl: true,
            ..Shortcut::plain(cap)
        }
    }

    /// With Ctrl and Shift.
    pub const fn ctrl_shift(cap: Cap) -> Shortcut {
        Shortcut {
            shift: true,
            ..Shortcut::ctrl(cap)
        }
    }

    /// With Shift.
    pub const fn shift(cap: Cap) -> Shortcut {
        Shortcut {
            shift: true,
            ..Shortcut::plain(cap)
        }
    }

    /// With Alt.
    pub const fn alt(cap: Cap) -> Shortcut {
        Shortcut {
            alt: true,
            ..Shortcut::plain(cap)
        }
    }
}

impl fmt::Display for Shortcut {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (held, name) in [(self.ctrl, "Ctrl+"), (self.alt, "Alt+"), (self.shift, "Shift+")] {
            if held {
                f.write_str(name)?;
            }
        }
        match self.cap {
            Cap::Letter(letter) => write!(f, "{letter}"),
            Cap::Digit(digit) => write!(f, "{digit}"),
            Cap::F(number) => write!(f, "F{number}"),
            Cap::Plus => f.write_str("+"),
            Cap::Minus => f.write_str("-"),
            Cap::Escape => f.write_str("Esc"),
            Cap::PageUp => f.write_str("Page Up"),
            Cap::PageDown => f.write_str("Page Down"),
            named => write!(f, "{named:?}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shortcuts_read_as_on_a_keyboard() {
        assert_eq!(Shortcut::ctrl_shift(Cap::Letter('S')).to_string(), "Ctrl+Shift+S");
        assert_eq!(Shortcut::plain(Cap::PageUp).to_string(), "Page Up");
        assert_eq!(Shortcut::alt(Cap::F(4)).to_string(), "Alt+F4");
    }
}
