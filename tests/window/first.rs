//! The first line of pipe, and that it is seen.

use crate::hand::{Hand, at};

#[test]
fn a_line_is_drawn_with_the_mouse_and_seen() {
    let mut hand = Hand::new();
    assert_eq!(hand.ink_at(at(0, 0, 3)), 0);
    hand.shelf("Point of delivery");
    hand.click_at(at(0, 0, 0));
    hand.shelf("Draw pipe");
    hand.click_at(at(0, 0, 0));
    hand.point(at(0, 0, 5));
    hand.says("lay 5'-0\" up");
    hand.click();
    assert_eq!(hand.job().runs.len(), 1);
    hand.menu("Draw", "Choose and move");
    hand.rest();
    hand.look("first_line");
    assert!(hand.ink_at(at(0, 0, 2)) > 25, "the pipe is black");
    assert!(hand.picture() == hand.picture(), "the same bit for bit");
}
