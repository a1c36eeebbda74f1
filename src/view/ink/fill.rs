//! A filled shape: its inside as triangles, around it a fringe that fades out.

use super::Chain;
use egui::{Color32, Mesh, Pos2, Vec2};
use lyon::math::point;
use lyon::path::Path;
use lyon::tessellation::{BuffersBuilder, FillOptions, FillRule, FillTessellator, FillVertex, VertexBuffers};

/// Shares of half a pixel: together the edge lies a hair outside, for thin strokes of small letters would fade away.
const INSIDE: f32 = 0.7;
const OUTSIDE: f32 = 1.1;

/// A filled shape, to be put down as often as it is needed.
#[derive(Clone, Debug, Default)]
pub struct Filled {
    inside: VertexBuffers<Pos2, u32>,
    /// For each corner of the edge its place and its way outward.
    edges: Vec<Vec<(Pos2, Vec2)>>,
    fringe: f32,
}

impl Filled {
    /// The shape inside some closed chains, by the non-zero rule; open ones are closed.
    ///
    /// The edge is full [`INSIDE`] of the fringe before it and gone [`OUTSIDE`] of it behind.
    pub fn of(chains: &[Chain], fringe: f32) -> Filled {
        let largest = chains
            .iter()
            .map(|chain| area(&chain.points))
            .fold(0.0, |most: f32, area| if area.abs() > most.abs() { area } else { most });
        let edges: Vec<Vec<(Pos2, Vec2)>> = chains
            .iter()
            .map(|chain| edge(&chain.points, largest.signum()))
            .collect();
        let mut path = Path::builder();
        for edge in &edges {
            let mut points = edge.iter().map(|(at, out)| {
                let at = *at - *out * (fringe * INSIDE);
                point(at.x, at.y)
            });
            if let Some(first) = points.next() {
                path.begin(first);
                for next in points {
                    path.line_to(next);
                }
                path.end(true);
            }
        }
        let mut inside = VertexBuffers::new();
        let options = FillOptions::tolerance(0.05).with_fill_rule(FillRule::NonZero);
        let corner = |vertex: FillVertex<'_>| {
            let at = vertex.position();
            Pos2::new(at.x, at.y)
        };
        let mut buffers = BuffersBuilder::new(&mut inside, corner);
        if FillTessellator::new()
            .tessellate_path(&path.build(), &options, &mut buffers)
            .is_err()
        {
            // What lyon cannot fill keeps its fringe, so that it is seen.
            inside = VertexBuffers::new();
        }
        Filled { inside, edges, fringe }
    }

    /// Puts the shape down, moved by `by`.
    pub fn put(&self, by: Pos2, color: Color32, mesh: &mut Mesh) {
        let by = by.to_vec2();
        let first = mesh.vertices.len() as u32;
        for corner in &self.inside.vertices {
            mesh.colored_vertex(*corner + by, color);
        }
        mesh.indices
            .extend(self.inside.indices.iter().map(|index| first + index));
        for edge in &self.edges {
            let first = mesh.vertices.len() as u32;
            for (at, out) in edge {
                mesh.colored_vertex(*at + by - *out * (self.fringe * INSIDE), color);
                mesh.colored_vertex(*at + by + *out * (self.fringe * OUTSIDE), Color32::TRANSPARENT);
            }
            let corners = edge.len() as u32;
            for corner in 0..corners {
                let (a, b) = (first + 2 * corner, first + 2 * ((corner + 1) % corners));
                mesh.add_triangle(a, a + 1, b);
                mesh.add_triangle(b, a + 1, b + 1);
            }
        }
    }
}

/// Twice the area that a chain goes around; its sign tells which way.
fn area(points: &[Pos2]) -> f32 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum()
}

/// The corners of a chain, each with the way out of the shape; `turn` is the sign of the outer edge's area.
fn edge(points: &[Pos2], turn: f32) -> Vec<(Pos2, Vec2)> {
    let mut corners: Vec<Pos2> = Vec::with_capacity(points.len());
    for at in points {
        if corners.last().is_none_or(|last| last.distance(*at) > 1e-3) {
            corners.push(*at);
        }
    }
    while corners.len() > 1 && corners[0].distance(corners[corners.len() - 1]) < 1e-3 {
        corners.pop();
    }
    let count = corners.len();
    if count < 3 {
        return Vec::new();
    }
    let out = |from: Pos2, to: Pos2| {
        let along = (to - from).normalized();
        Vec2::new(along.y, -along.x) * turn
    };
    (0..count)
        .map(|corner| {
            let (before, at, after) = (
                corners[(corner + count - 1) % count],
                corners[corner],
                corners[(corner + 1) % count],
            );
            let (a, b) = (out(before, at), out(at, after));
            let middle = (a + b).normalized();
            // At a sharp corner the fringe would run away: twice its width is enough.
            let reach = 1.0 / middle.dot(a).max(0.5);
            (at, middle * reach)
        })
        .collect()
}
