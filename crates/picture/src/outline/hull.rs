//! The convex hull of points (Andrew's chain, Information Processing Letters 9, 1979).

use crate::Point;
use units::order;

/// Its corners in turn, clockwise as a picture is seen.
pub(super) fn hull(points: &[Point]) -> Vec<Point> {
    let sorted = order(points.len(), &|a, b| {
        points[a].x.total_cmp(&points[b].x).then(points[a].y.total_cmp(&points[b].y))
    });
    let half = |indices: &mut dyn Iterator<Item = &usize>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in indices.map(|i| points[*i]) {
            while let [.., a, b] = chain[..] {
                if b.from(a).cross(p.from(b)) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut all = half(&mut sorted.iter());
    all.extend(half(&mut sorted.iter().rev()));
    all
}
