//! The explicit method of Dormand and Prince, order 5 with an error estimate of order 4.

use super::{Attempt, Method, System};

/// Dormand and Prince 1980 (`dormand1980`), the pair RK5(4)7M; seven stages, the last one being the first of the next step.
#[derive(Clone, Copy, Debug)]
pub struct DormandPrince;

const A2: [f64; 1] = [1.0 / 5.0];
const A3: [f64; 2] = [3.0 / 40.0, 9.0 / 40.0];
const A4: [f64; 3] = [44.0 / 45.0, -56.0 / 15.0, 32.0 / 9.0];
const A5: [f64; 4] = [19372.0 / 6561.0, -25360.0 / 2187.0, 64448.0 / 6561.0, -212.0 / 729.0];
const A6: [f64; 5] = [9017.0 / 3168.0, -355.0 / 33.0, 46732.0 / 5247.0, 49.0 / 176.0, -5103.0 / 18656.0];
const B: [f64; 6] = [35.0 / 384.0, 0.0, 500.0 / 1113.0, 125.0 / 192.0, -2187.0 / 6784.0, 11.0 / 84.0];
/// Weights of order 5 less those of order 4.
const ERROR: [f64; 7] =
    [71.0 / 57600.0, 0.0, -71.0 / 16695.0, 71.0 / 1920.0, -17253.0 / 339_200.0, 22.0 / 525.0, -1.0 / 40.0];

/// y + h sum of weights times slopes.
#[inline]
fn advance<const N: usize, const K: usize>(
    y: &[f64; N],
    h: f64,
    weights: &[f64; K],
    slopes: [&[f64; N]; K],
) -> [f64; N] {
    core::array::from_fn(|i| {
        let mut sum = 0.0;
        for k in 0..K {
            sum += weights[k] * slopes[k][i];
        }
        y[i] + h * sum
    })
}

impl<S: System<N, E>, const N: usize, const E: usize> Method<S, N, E> for DormandPrince {
    fn attempt(system: &S, y: &[f64; N], f: &[f64; N], h: f64) -> Attempt<N> {
        let k1 = f;
        let k2 = system.rates(&advance(y, h, &A2, [k1]));
        let k3 = system.rates(&advance(y, h, &A3, [k1, &k2]));
        let k4 = system.rates(&advance(y, h, &A4, [k1, &k2, &k3]));
        let k5 = system.rates(&advance(y, h, &A5, [k1, &k2, &k3, &k4]));
        let k6 = system.rates(&advance(y, h, &A6, [k1, &k2, &k3, &k4, &k5]));
        let end = advance(y, h, &B, [k1, &k2, &k3, &k4, &k5, &k6]);
        let k7 = system.rates(&end);
        let error = advance(&[0.0; N], h, &ERROR, [k1, &k2, &k3, &k4, &k5, &k6, &k7]);
        Attempt { y: end, error, rates: Some(k7) }
    }
}
