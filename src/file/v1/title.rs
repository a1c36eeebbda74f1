//! The title block in the file.

use serde::{Deserialize, Serialize};

use super::words::Status;
use super::{List, usual};
use crate::job;

macro_rules! title {
    ($($key:ident $(| $old:literal)? = $model:ident),*) => {
        /// `title: (job: "…", …)`
        #[derive(Default, PartialEq, Serialize, Deserialize)]
        #[serde(deny_unknown_fields, default)]
        pub struct Title {
            $(#[serde($(alias = $old,)? skip_serializing_if = "usual")] $key: String,)*
            #[serde(skip_serializing_if = "usual")]
            status: Status,
            #[serde(skip_serializing_if = "usual")]
            revisions: List<Revision>,
        }

        impl From<&job::TitleBlock> for Title {
            fn from(title: &job::TitleBlock) -> Title {
                Title {
                    $($key: title.$model.clone(),)*
                    status: title.status.into(),
                    revisions: title.revisions.iter().map(Revision::from).collect(),
                }
            }
        }

        impl From<Title> for job::TitleBlock {
            fn from(title: Title) -> job::TitleBlock {
                job::TitleBlock {
                    $($model: title.$key,)*
                    status: title.status.into(),
                    revisions: title.revisions.0.into_iter().map(job::Revision::from).collect(),
                }
            }
        }
    };
}
title!(
    job = job,
    job_address | "site" = site,
    parcel = parcel,
    owner = owner,
    contractor | "firm" = firm,
    contact = contact,
    license_holder | "licence_holder" = licence_holder,
    license | "licence" = licence,
    permit = permit,
    drawn_by = drawn_by,
    checked_by = checked_by,
    drawing = drawing,
    date = date,
    description = description
);

/// `(mark: "A", date: "…", what: "…", by: "…")`
#[derive(PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Revision {
    mark: String,
    #[serde(default, skip_serializing_if = "usual")]
    date: String,
    #[serde(default, skip_serializing_if = "usual")]
    what: String,
    #[serde(default, skip_serializing_if = "usual")]
    by: String,
}

impl From<&job::Revision> for Revision {
    fn from(revision: &job::Revision) -> Revision {
        let job::Revision { mark, date, what, by } = revision.clone();
        Revision { mark, date, what, by }
    }
}

impl From<Revision> for job::Revision {
    fn from(revision: Revision) -> job::Revision {
        let Revision { mark, date, what, by } = revision;
        job::Revision { mark, date, what, by }
    }
}
