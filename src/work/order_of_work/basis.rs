//! Where a step was read, by the code that the profile follows.

use crate::codebook::CodeFamily;

/// The basis of a step for which no text was found.
pub const PRACTICE: &str = "common practice, no source";

/// What a test is prepared by.
pub(super) const fn test(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "IFGC 2018 406.3 (joints exposed, appliances disconnected or isolated), F; air or inert gas, never oxygen, F; the \
                 rest common practice, no source"
        }
        Some(CodeFamily::Upc) => {
            "CPC 2013 1213.3 (pressure and time), F; preparation as IFGC 2018 406.3 has it, F, this code's clause not read; \
                 the rest common practice, no source"
        }
        Some(CodeFamily::B149) => {
            "CSA B149.1 6.22 by its number, text not read; preparation as IFGC 2018 406.3 has it, F; the rest common practice, \
                 no source"
        }
        None => "IFGC 2018 406.3, F, this profile's code not read; the rest common practice, no source",
    }
}

/// In which order parts stand at an appliance.
pub(super) const fn at_appliance(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "NFPA 54-2012 9.6.4, 9.6.7, as CPC 2013 1211.5, 1211.8 carries them (order at an appliance), F; the rest common \
                 practice, no source"
        }
        Some(CodeFamily::Upc) => {
            "CPC 2013 1211.5, 1211.8 (order at an appliance), F; the rest common practice, no source"
        }
        Some(CodeFamily::B149) | None => {
            "CPC 2013 1211.5, 1211.8 (order at an appliance), F, this profile's own clause not read; the rest common practice, \
                 no source"
        }
    }
}

/// Which gaps around pipe are sealed.
pub(super) const fn sealing(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "NFPA 54-2012 7.2.1, 7.1.5, as CPC 2013 1210.2, 1210.1.5 carries them (exterior and foundation walls), F; the rest \
                 common practice, no source"
        }
        Some(CodeFamily::Upc) => {
            "CPC 2013 1210.2, 1210.1.5 (exterior and foundation walls), F; the rest common practice, no source"
        }
        Some(CodeFamily::B149) | None => {
            "CPC 2013 1210.2, 1210.1.5 (exterior and foundation walls), F, this profile's own clause not read; the rest common \
                 practice, no source"
        }
    }
}

/// Why steel outdoors is painted.
pub(super) const fn painting(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "NFPA 54-2012 7.2.1, as CPC 2013 1210.2 carries it; Oregon State University standard 23 11 00 (exposed steel \
                 painted), F; the rest common practice, no source"
        }
        Some(CodeFamily::Upc) => {
            "CPC 2013 1210.2; Oregon State University standard 23 11 00 (exposed steel painted), F; the rest common practice, \
                 no source"
        }
        Some(CodeFamily::B149) | None => {
            "CPC 2013 1210.2; Oregon State University standard 23 11 00 (exposed steel painted), F, this profile's own clause \
                 not read; the rest common practice, no source"
        }
    }
}

/// Why the whole system is looked over while gas is turned on.
pub(super) const fn turning_on(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "IFGC 2018 406.6.1, 406.6.2 (tested pipe only, whole system looked over), F; the rest common practice, no source"
        }
        Some(CodeFamily::Upc | CodeFamily::B149) | None => {
            "IFGC 2018 406.6.1, 406.6.2, F, this profile's own clause not read; the rest common practice, no source"
        }
    }
}

/// Why leaks are looked for at once, and with what.
pub(super) const fn leak_check(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "IFGC 2018 406.5.1 (detector or leak-detection fluid), F; 406.6.3 (at once), M; the rest common practice, no source"
        }
        Some(CodeFamily::Upc) => {
            "IFGC 2018 406.5.1 (detector or leak-detection fluid), F, this code's clause not read; at once: NFPA 54-2012 8.2.3, \
                 M; the rest common practice, no source"
        }
        Some(CodeFamily::B149) | None => {
            "IFGC 2018 406.5.1, F, and 406.6.3, M, this profile's own clause not read; the rest common practice, no source"
        }
    }
}

/// Why pipe is purged so, and why after the leak check.
pub(super) const fn purge(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => {
            "IFGC 2018 406.7.2.1 (ways), F; NFPA 54-2012 table 8.3.1 (outdoors), F; leak check before it, 406.6.3, M; the rest \
                 common practice, no source"
        }
        Some(CodeFamily::Upc) => {
            "CPC 2013 table 1213.6.1 [NFPA 54-2012 table 8.3.1] (outdoors), F; ways as IFGC 2018 406.7.2.1 has them, F, this \
                 code's clause not read; leak check before it, NFPA 54-2012 8.2.3, M; the rest common practice, no source"
        }
        Some(CodeFamily::B149) => {
            "CSA B149.1 6.23 by its number, text and order not read: ask the office; ways as IFGC 2018 406.7.2.1 has them, F; \
                 the rest common practice, no source"
        }
        None => {
            "IFGC 2018 406.7.2.1 (ways), F; NFPA 54-2012 table 8.3.1 (outdoors), F; this profile's own clause and order not \
                 read; the rest common practice, no source"
        }
    }
}

/// Why appliances wait until the pipe is tested and purged.
pub(super) const fn start(family: Option<CodeFamily>) -> &'static str {
    match family {
        Some(CodeFamily::Ifgc) => "IFGC 2018 406.6.4 (tested and purged first), M; the rest common practice, no source",
        Some(CodeFamily::Upc | CodeFamily::B149) | None => {
            "IFGC 2018 406.6.4 (tested and purged first), M, this profile's own clause not read; the rest common practice, no \
                 source"
        }
    }
}
