//! Paints a window's triangles without a graphics card, the same bit for bit from run to run.
//!
//! As the program's own painter does it: colours premultiplied and blended as they are stored, textures smoothed between
//! texels, a pixel belongs to the triangle that holds its middle (on an edge: the upper or left one).

use egui::epaint::textures::{TextureFilter, TexturesDelta};
use egui::epaint::{ClippedShape, ImageData, Primitive, Vertex};
use egui::{Color32, Context, TextureId, Vec2};
use egui_kittest::TestRenderer;
use resvg::tiny_skia::Pixmap;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// Places are counted in parts of a pixel, so that neighbours share their edge exactly.
const PARTS: i64 = 256;
/// Corners farther away, in pixels, are drawn in to here.
const FARTHEST: f32 = 1_000_000.0;

/// Keeps the textures of a window, and paints it when asked.
#[derive(Clone, Default)]
pub struct Painter(Rc<RefCell<HashMap<TextureId, Texture>>>);

struct Texture {
    size: [usize; 2],
    texels: Vec<Color32>,
    filter: TextureFilter,
}

impl TestRenderer for Painter {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        let mut textures = self.0.borrow_mut();
        for (id, deltas) in delta.set.drain() {
            for delta in deltas {
                let ImageData::Color(image) = &delta.image;
                match delta.pos {
                    None => {
                        let (size, texels) = (image.size, image.pixels.clone());
                        let filter = delta.options.magnification;
                        textures.insert(id, Texture { size, texels, filter });
                    }
                    Some([x, y]) => {
                        let whole = textures.get_mut(&id).expect("a patch of a texture that is there");
                        for (row, texels) in image.pixels.chunks(image.size[0]).enumerate() {
                            let start = (y + row) * whole.size[0] + x;
                            whole.texels[start..start + texels.len()].copy_from_slice(texels);
                        }
                    }
                }
            }
        }
        // What goes now may still be in the picture that was made last.
        delta.free.clear();
    }
}

impl Painter {
    /// Paints shapes on black; `size` is in points.
    pub fn paint(&self, ctx: &Context, shapes: Vec<ClippedShape>, size: Vec2) -> Pixmap {
        let pixels = ctx.pixels_per_point();
        let [width, height] = [size.x, size.y].map(|side| (side * pixels).round() as usize);
        let mut canvas = Canvas {
            width,
            pixels: vec![Color32::BLACK; width * height],
        };
        let textures = self.0.borrow();
        for clipped in ctx.tessellate(shapes, pixels) {
            let Primitive::Mesh(mesh) = clipped.primitive else {
                panic!("nothing is painted by the graphics card itself");
            };
            let edge = |at: f32, most: usize| ((at * pixels).round() as i64).clamp(0, most as i64);
            let (min, max) = (clipped.clip_rect.min, clipped.clip_rect.max);
            let clip = Clip {
                columns: [edge(min.x, width), edge(max.x, width)],
                rows: [edge(min.y, height), edge(max.y, height)],
            };
            let texture = &textures[&mesh.texture_id];
            for corners in mesh.indices.chunks_exact(3) {
                let corner = |at: usize| &mesh.vertices[corners[at] as usize];
                canvas.triangle([corner(0), corner(1), corner(2)], pixels, texture, &clip);
            }
        }
        let mut picture = Pixmap::new(width as u32, height as u32).expect("a window has a size");
        for (to, from) in picture.data_mut().chunks_exact_mut(4).zip(&canvas.pixels) {
            to.copy_from_slice(&from.to_array());
        }
        picture
    }
}

/// The first column and row that may be painted, and the ones behind the last.
struct Clip {
    columns: [i64; 2],
    rows: [i64; 2],
}

struct Canvas {
    width: usize,
    pixels: Vec<Color32>,
}

/// An edge of a triangle: `fall · x ≤ a bound that grows with y` inside it.
struct Edge {
    along: [i64; 2],
    start: [i64; 2],
    /// 1 where the edge itself belongs to the neighbour.
    shy: i64,
}

impl Edge {
    fn of(from: [i64; 2], to: [i64; 2]) -> Edge {
        let along = [to[0] - from[0], to[1] - from[1]];
        let is_ours = along[1] < 0 || along[1] == 0 && along[0] > 0;
        Edge {
            along,
            start: from,
            shy: i64::from(!is_ours),
        }
    }

    /// Narrows the columns of a row to those inside this edge.
    fn narrow(&self, y: i64, columns: &mut [i64; 2]) {
        let [dx, dy] = self.along;
        let bound = dx * (y - self.start[1]) + dy * self.start[0] - self.shy;
        let half = PARTS / 2;
        if dy > 0 {
            let last = (bound.div_euclid(dy) - half).div_euclid(PARTS);
            columns[1] = columns[1].min(last + 1);
        } else if dy < 0 {
            let x = -bound.div_euclid(-dy);
            let first = -(half - x).div_euclid(PARTS);
            columns[0] = columns[0].max(first);
        } else if bound < 0 {
            columns[1] = columns[0];
        }
    }
}

/// Something that changes evenly over a triangle.
#[derive(Clone, Copy)]
struct Slope {
    at: f32,
    by_x: f32,
    by_y: f32,
    least: f32,
    most: f32,
}

impl Slope {
    fn at(&self, x: f32, y: f32) -> f32 {
        (self.at + self.by_x * x + self.by_y * y).clamp(self.least, self.most)
    }
}

impl Canvas {
    fn triangle(&mut self, corners: [&Vertex; 3], scale: f32, texture: &Texture, clip: &Clip) {
        let [a, mut b, mut c] = corners;
        if corners.iter().any(|corner| !corner.pos.is_finite()) {
            return;
        }
        let place = |corner: &Vertex| {
            [corner.pos.x, corner.pos.y].map(|part| {
                let part = (part * scale).clamp(-FARTHEST, FARTHEST);
                (part * PARTS as f32).round() as i64
            })
        };
        let (pa, mut pb, mut pc) = (place(a), place(b), place(c));
        let cross = |b: [i64; 2], c: [i64; 2]| (b[0] - pa[0]) * (c[1] - pa[1]) - (b[1] - pa[1]) * (c[0] - pa[0]);
        let mut area = cross(pb, pc);
        if area == 0 {
            return;
        }
        if area < 0 {
            (b, c, pb, pc, area) = (c, b, pc, pb, -area);
        }
        let edges = [Edge::of(pa, pb), Edge::of(pb, pc), Edge::of(pc, pa)];
        let row_of = |y: i64| y.div_euclid(PARTS);
        let (top, foot) = (pa[1].min(pb[1]).min(pc[1]), pa[1].max(pb[1]).max(pc[1]));
        let rows = row_of(top).max(clip.rows[0])..(row_of(foot) + 1).min(clip.rows[1]);

        let whole = area as f32;
        let [ab, ac] = [pb, pc].map(|p| [(p[0] - pa[0]) as f32, (p[1] - pa[1]) as f32]);
        let slope = |of: &dyn Fn(&Vertex) -> f32| {
            let (fa, fb, fc) = (of(a), of(b), of(c));
            Slope {
                at: fa,
                by_x: ((fb - fa) * ac[1] - (fc - fa) * ab[1]) / whole,
                by_y: ((fc - fa) * ab[0] - (fb - fa) * ac[0]) / whole,
                least: fa.min(fb).min(fc),
                most: fa.max(fb).max(fc),
            }
        };
        let ink: [Slope; 4] = std::array::from_fn(|part| slope(&|corner| f32::from(corner.color.to_array()[part])));
        let [u, v] = [slope(&|corner| corner.uv.x), slope(&|corner| corner.uv.y)];
        let is_one_texel = a.uv == b.uv && b.uv == c.uv;
        let is_one_ink = a.color == b.color && b.color == c.color;
        let texel = texture.at(a.uv.x, a.uv.y);

        for row in rows {
            let y = row * PARTS + PARTS / 2;
            let mut columns = clip.columns;
            for edge in &edges {
                edge.narrow(y, &mut columns);
            }
            if columns[0] >= columns[1] {
                continue;
            }
            let start = row as usize * self.width;
            let span = &mut self.pixels[start + columns[0] as usize..start + columns[1] as usize];
            let y = (y - pa[1]) as f32;
            let mut x = (columns[0] * PARTS + PARTS / 2 - pa[0]) as f32;
            if is_one_texel && is_one_ink {
                let laid = std::array::from_fn(|part| f32::from(a.color.to_array()[part]) * texel[part]);
                for pixel in span {
                    *pixel = over(laid, *pixel);
                }
                continue;
            }
            for pixel in span {
                let texel = if is_one_texel {
                    texel
                } else {
                    texture.at(u.at(x, y), v.at(x, y))
                };
                *pixel = over(std::array::from_fn(|part| ink[part].at(x, y) * texel[part]), *pixel);
                x += PARTS as f32;
            }
        }
    }
}

/// A colour laid over another, both premultiplied; what is laid has parts up to 255.
fn over(laid: [f32; 4], below: Color32) -> Color32 {
    let left = 1.0 - laid[3] / 255.0;
    let below = below.to_array();
    let [r, g, b, a] = std::array::from_fn(|part| (laid[part] + f32::from(below[part]) * left + 0.5) as u8);
    Color32::from_rgba_premultiplied(r, g, b, a)
}

impl Texture {
    /// The colour at a place of the texture, each part up to 1.
    fn at(&self, u: f32, v: f32) -> [f32; 4] {
        let [width, height] = self.size;
        let texel = |x: i64, y: i64| {
            let x = x.clamp(0, width as i64 - 1) as usize;
            let y = y.clamp(0, height as i64 - 1) as usize;
            self.texels[y * width + x].to_array().map(f32::from)
        };
        let (x, y) = (u * width as f32, v * height as f32);
        if self.filter == TextureFilter::Nearest {
            return texel(x.floor() as i64, y.floor() as i64).map(|part| part / 255.0);
        }
        let (x, y) = (x - 0.5, y - 0.5);
        let (left, top) = (x.floor(), y.floor());
        let (right, low) = (x - left, y - top);
        let (left, top) = (left as i64, top as i64);
        let (nw, ne) = (texel(left, top), texel(left + 1, top));
        let (sw, se) = (texel(left, top + 1), texel(left + 1, top + 1));
        std::array::from_fn(|part| {
            let above = nw[part] + (ne[part] - nw[part]) * right;
            let below = sw[part] + (se[part] - sw[part]) * right;
            (above + (below - above) * low) / 255.0
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::{Pos2, pos2};

    fn white() -> Texture {
        Texture {
            size: [1, 1],
            texels: vec![Color32::WHITE],
            filter: TextureFilter::Linear,
        }
    }

    fn vertex(pos: Pos2, color: Color32) -> Vertex {
        Vertex {
            pos,
            uv: pos2(0.0, 0.0),
            color,
        }
    }

    #[test]
    fn a_fan_of_triangles_covers_every_pixel_once() {
        let mut canvas = Canvas {
            width: 40,
            pixels: vec![Color32::BLACK; 1600],
        };
        let clip = Clip {
            columns: [0, 40],
            rows: [0, 40],
        };
        let veil = Color32::from_rgba_premultiplied(10, 10, 10, 0);
        // Corners on, between and outside of pixel middles; both ways round.
        let ring = [
            (-3.0, -7.0),
            (20.5, -2.0),
            (44.0, -9.5),
            (60.0, 20.5),
            (41.0, 47.5),
            (-1.5, 43.0),
            (-8.0, 21.0),
        ];
        let middle = vertex(pos2(17.5, 19.5), veil);
        for at in 0..ring.len() {
            let [a, b] = [at, (at + 1) % ring.len()].map(|at| vertex(pos2(ring[at].0, ring[at].1), veil));
            let corners = if at % 2 == 0 {
                [&middle, &a, &b]
            } else {
                [&middle, &b, &a]
            };
            canvas.triangle(corners, 1.0, &white(), &clip);
        }
        assert!(canvas.pixels.iter().all(|pixel| pixel.r() == 10));
    }

    #[test]
    fn colours_run_evenly_and_stay_inside_the_clip() {
        let mut canvas = Canvas {
            width: 20,
            pixels: vec![Color32::BLACK; 400],
        };
        let clip = Clip {
            columns: [5, 15],
            rows: [0, 20],
        };
        let [a, b, c] = [(0.0, 0.0, 0), (20.0, 0.0, 200), (0.0, 400.0, 0)]
            .map(|(x, y, grey)| vertex(pos2(x, y), Color32::from_gray(grey)));
        canvas.triangle([&a, &b, &c], 1.0, &white(), &clip);
        let row: Vec<u8> = canvas.pixels[..20].iter().map(|pixel| pixel.r()).collect();
        assert_eq!(row[..5], [0; 5]);
        assert_eq!(row[15..], [0; 5]);
        assert!(row[5..15].windows(2).all(|pair| pair[1] - pair[0] == 10), "{row:?}");
    }

    #[test]
    fn between_texels_the_middle_is_seen() {
        let texture = Texture {
            size: [2, 1],
            texels: vec![Color32::BLACK, Color32::WHITE],
            filter: TextureFilter::Linear,
        };
        assert_eq!(texture.at(0.5, 0.5)[0], 0.5);
        assert_eq!(texture.at(0.0, 0.5)[0], 0.0, "what lies beyond goes on as the edge");
        assert_eq!(texture.at(1.0, 9.0)[0], 1.0);
    }
}
