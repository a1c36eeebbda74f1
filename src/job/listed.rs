//! Enums that know all their cases.

/// Declares an enum with `ALL`: every case in the order of its declaration, so that none can be left out of it.
macro_rules! listed {
    ($(#[$about:meta])* pub enum $name:ident { $($(#[$what:meta])* $case:ident),+ $(,)? }) => {
        $(#[$about])*
        pub enum $name { $($(#[$what])* $case),+ }

        impl $name {
            /// All of them, as they are declared.
            pub const ALL: [$name; [$($name::$case),+].len()] = [$($name::$case),+];
        }
    };
}

pub(crate) use listed;
