//! A linearly implicit method for stiff phases: order 4 with an error estimate of order 3, stiffly accurate.

use super::{Attempt, Method, Stiff};

/// The six-stage Rosenbrock method RODAS of Hairer and Wanner, *Solving Ordinary Differential Equations II* (1996), sec.
/// IV.7 (`hairer1996`); coefficients from memory, proved by the order tests.
#[derive(Clone, Copy, Debug)]
pub struct Rosenbrock;

const GAMMA: f64 = 0.25;

const A2: [f64; 1] = [1.544];
const A3: [f64; 2] = [0.946_678_528_081_582_6, 0.255_701_169_898_328_4];
const A4: [f64; 3] = [3.314_825_187_068_521, 2.896_124_015_972_201, 0.998_641_913_997_781_7];
const A5: [f64; 4] = [1.221_224_509_226_641, 6.019_134_481_288_629, 12.537_083_329_320_87, -0.687_886_036_105_895];

const C2: [f64; 1] = [-5.6688];
const C3: [f64; 2] = [-2.430_093_356_833_875, -0.206_359_915_709_191_5];
const C4: [f64; 3] = [-0.107_352_905_815_137_5, -9.594_562_251_023_355, -20.470_286_148_096_16];
const C5: [f64; 4] = [7.496_443_313_967_647, -10.246_804_314_643_52, -33.999_903_528_199_05, 11.708_908_932_061_6];
const C6: [f64; 5] = [
    8.083_246_795_921_522,
    -7.981_132_988_064_893,
    -31.521_594_328_743_71,
    16.319_305_431_231_36,
    -6.058_818_238_834_054,
];

/// start + sum of weights times slopes.
#[inline]
fn combine<const N: usize, const K: usize>(start: &[f64; N], weights: &[f64; K], slopes: [&[f64; N]; K]) -> [f64; N] {
    core::array::from_fn(|i| {
        let mut sum = start[i];
        for k in 0..K {
            sum += weights[k] * slopes[k][i];
        }
        sum
    })
}

impl<S: Stiff<N, E>, const N: usize, const E: usize> Method<S, N, E> for Rosenbrock {
    fn attempt(system: &S, y: &[f64; N], f: &[f64; N], h: f64) -> Attempt<N> {
        let matrix = Factored::new(system.jacobian(y), 1.0 / (h * GAMMA));
        let inverse = 1.0 / h;
        let stage = |rates: &[f64; N], history: [f64; N]| {
            matrix.solve(core::array::from_fn(|i| rates[i] + inverse * history[i]))
        };
        let zero = [0.0; N];
        let u1 = matrix.solve(*f);
        let y2 = combine(y, &A2, [&u1]);
        let u2 = stage(&system.rates(&y2), combine(&zero, &C2, [&u1]));
        let y3 = combine(y, &A3, [&u1, &u2]);
        let u3 = stage(&system.rates(&y3), combine(&zero, &C3, [&u1, &u2]));
        let y4 = combine(y, &A4, [&u1, &u2, &u3]);
        let u4 = stage(&system.rates(&y4), combine(&zero, &C4, [&u1, &u2, &u3]));
        let y5 = combine(y, &A5, [&u1, &u2, &u3, &u4]);
        let u5 = stage(&system.rates(&y5), combine(&zero, &C5, [&u1, &u2, &u3, &u4]));
        let y6 = combine(&y5, &[1.0], [&u5]);
        let u6 = stage(&system.rates(&y6), combine(&zero, &C6, [&u1, &u2, &u3, &u4, &u5]));
        Attempt { y: combine(&y6, &[1.0], [&u6]), error: u6, rates: None }
    }
}

/// The matrix diagonal * I - J, factored with partial pivoting.
struct Factored<const N: usize> {
    lu: [[f64; N]; N],
    /// Reciprocals of the pivots: six stages divide by each.
    inverse: [f64; N],
    order: [usize; N],
}

impl<const N: usize> Factored<N> {
    fn new(jacobian: [[f64; N]; N], diagonal: f64) -> Self {
        let mut lu = jacobian;
        for (i, row) in lu.iter_mut().enumerate() {
            for value in row.iter_mut() {
                *value = -*value;
            }
            row[i] += diagonal;
        }
        let mut order: [usize; N] = core::array::from_fn(|i| i);
        let mut inverse = [0.0; N];
        for k in 0..N {
            let mut pivot = k;
            for i in k + 1..N {
                if lu[i][k].abs() > lu[pivot][k].abs() {
                    pivot = i;
                }
            }
            lu.swap(k, pivot);
            order.swap(k, pivot);
            let pivot_row = lu[k];
            inverse[k] = 1.0 / pivot_row[k];
            for row in lu.iter_mut().skip(k + 1) {
                let factor = row[k] * inverse[k];
                row[k] = factor;
                for j in k + 1..N {
                    row[j] -= factor * pivot_row[j];
                }
            }
        }
        Self { lu, inverse, order }
    }

    fn solve(&self, right: [f64; N]) -> [f64; N] {
        let mut x: [f64; N] = core::array::from_fn(|i| right[self.order[i]]);
        for i in 0..N {
            for j in 0..i {
                x[i] -= self.lu[i][j] * x[j];
            }
        }
        for i in (0..N).rev() {
            for j in i + 1..N {
                x[i] -= self.lu[i][j] * x[j];
            }
            x[i] *= self.inverse[i];
        }
        x
    }
}
