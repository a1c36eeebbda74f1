//! What is seen of a job: the paper that is drawn on and the sheet that will be given out, both as triangles; with what lies
//! around the paper, from the editor's tables: shelf, menus, the state of the pencil. Asks others by requests on the desk.

pub mod canvas;
pub mod ink;
pub mod menu;
pub mod pencil;
pub mod sheet_view;
pub mod shelf;
