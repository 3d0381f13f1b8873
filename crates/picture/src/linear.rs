//! Small linear algebra: vectors of three, and symmetric systems of a few unknowns.

pub(crate) type Vec3 = [f64; 3];
/// By rows.
pub(crate) type Mat3 = [Vec3; 3];

pub(crate) fn dot(a: Vec3, b: Vec3) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn cross(a: Vec3, b: Vec3) -> Vec3 {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

pub(crate) fn scaled(a: Vec3, by: f64) -> Vec3 {
    [a[0] * by, a[1] * by, a[2] * by]
}

pub(crate) fn plus(a: Vec3, b: Vec3) -> Vec3 {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(crate) fn times(m: &Mat3, v: Vec3) -> Vec3 {
    [dot(m[0], v), dot(m[1], v), dot(m[2], v)]
}

pub(crate) fn transposed(m: &Mat3) -> Mat3 {
    [[m[0][0], m[1][0], m[2][0]], [m[0][1], m[1][1], m[2][1]], [m[0][2], m[1][2], m[2][2]]]
}

pub(crate) fn product(a: &Mat3, b: &Mat3) -> Mat3 {
    let columns = transposed(b);
    let row = |r: Vec3| [dot(r, columns[0]), dot(r, columns[1]), dot(r, columns[2])];
    [row(a[0]), row(a[1]), row(a[2])]
}

/// The inverse, or nothing for a matrix without one.
pub(crate) fn inverse(m: &Mat3) -> Option<Mat3> {
    let columns = [cross(m[1], m[2]), cross(m[2], m[0]), cross(m[0], m[1])];
    let det = dot(m[0], columns[0]);
    let all = transposed(&columns).map(|row| scaled(row, 1.0 / det));
    all.iter().flatten().all(|x| x.is_finite()).then_some(all)
}

/// Unit length.
pub(crate) fn unit(a: Vec3) -> Vec3 {
    scaled(a, 1.0 / dot(a, a).sqrt())
}

/// The rotation nearest in its first axis to a matrix whose columns are nearly a rotation's (Gram and Schmidt).
pub(crate) fn rotation(columns: [Vec3; 2]) -> Mat3 {
    let first = unit(columns[0]);
    let second = unit(plus(columns[1], scaled(first, -dot(first, columns[1]))));
    transposed(&[first, second, cross(first, second)])
}

/// The inverse of a symmetric matrix that is positive definite (Cholesky), or nothing if it is not.
pub(crate) fn inverse_of_symmetric<const N: usize>(m: &[[f64; N]; N]) -> Option<[[f64; N]; N]> {
    // L by rows, m = L L'.
    let mut l = [[0.0; N]; N];
    for i in 0..N {
        for j in 0..=i {
            let rest = m[i][j] - (0..j).map(|k| l[i][k] * l[j][k]).sum::<f64>();
            if i != j {
                l[i][j] = rest / l[j][j];
            } else if rest > 0.0 && rest.is_finite() {
                l[i][i] = rest.sqrt();
            } else {
                return None;
            }
        }
    }
    let mut found = [[0.0; N]; N];
    for (column, row) in found.iter_mut().enumerate() {
        let mut x = [0.0; N];
        for i in column..N {
            let own = f64::from(u8::from(i == column));
            x[i] = (own - (column..i).map(|k| l[i][k] * x[k]).sum::<f64>()) / l[i][i];
        }
        for i in (0..N).rev() {
            x[i] = (x[i] - (i + 1..N).map(|k| l[k][i] * x[k]).sum::<f64>()) / l[i][i];
        }
        // The inverse is symmetric too: its column is its row.
        *row = x;
    }
    Some(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inverses() {
        // Arithmetic: a matrix times its inverse is one.
        let m = [[4.0, 1.0, 0.5], [1.0, 3.0, -1.0], [0.5, -1.0, 5.0]];
        for found in [inverse(&m), inverse_of_symmetric(&m)] {
            let one = found.map(|i| product(&m, &i)).expect("there is one");
            for (i, row) in one.iter().enumerate() {
                for (j, x) in row.iter().enumerate() {
                    assert!((x - f64::from(u8::from(i == j))).abs() < 1e-12, "{one:?}");
                }
            }
        }
        assert!(inverse(&[[1.0, 2.0, 3.0], [2.0, 4.0, 6.0], [0.0, 1.0, 1.0]]).is_none());
        assert!(inverse_of_symmetric(&[[1.0, 2.0], [2.0, 1.0]]).is_none());
    }
}
