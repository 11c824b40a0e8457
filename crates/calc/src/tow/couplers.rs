//! Classes of couplers and the forces that couplers and hitches are tested with (COMAR 11.13.08.10, Maryland, which gives
//! values of SAE J684).

const INCH: f64 = 0.0254;
const POUND: f64 = 0.453_592_37;
/// What two weights may differ by and still be the same, in pounds.
const ROUNDING: f64 = 1e-6;

/// What a coupler must stand and what goes with it; weights and forces in pounds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Class {
    /// One to four.
    pub number: u8,
    /// Diameter of its ball at the least, in m; none for class 4, whose ball is that of the coupler.
    pub ball: Option<f64>,
    /// Pull and push along the trailer.
    pub long: f64,
    /// Force across.
    pub across: f64,
    /// Upward pull.
    pub lift: f64,
    /// Downward push.
    pub press: f64,
    /// Breaking load of each safety chain at the least.
    pub chain: f64,
}

/// The class of coupler for a gross trailer weight in pounds; class 4 stands multiples of the weight. None above 10,000 lb.
///
/// ```
/// use pintle_calc::tow::couplers::class_for;
/// assert_eq!(class_for(3500.0).map(|class| class.number), Some(2));
/// assert_eq!(class_for(3501.0).map(|class| class.number), Some(3));
/// assert_eq!(class_for(8000.0).map(|class| class.press), Some(11_200.0));
/// ```
pub fn class_for(gross: f64) -> Option<Class> {
    let upto = |most: f64| gross <= most + ROUNDING;
    let two = Some(2.0 * INCH);
    let class = |number, ball, [long, across, lift, press, chain]: [f64; 5]| {
        Some(Class { number, ball, long, across, lift, press, chain })
    };
    if upto(2000.0) {
        class(1, Some(1.875 * INCH), [6000.0, 2000.0, 2500.0, 2500.0, 2000.0])
    } else if upto(3500.0) {
        class(2, two, [10_500.0, 3000.0, 4500.0, 4500.0, 3500.0])
    } else if upto(5000.0) {
        class(3, two, [15_000.0, 4000.0, 7000.0, 7000.0, 5000.0])
    } else if upto(10_000.0) {
        class(4, None, [3.0 * gross, gross, 1.3 * gross, 1.4 * gross, gross])
    } else {
        None
    }
}

/// Forces that a weight-carrying hitch is tested with, in pounds, for a gross trailer weight `r` in pounds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchTest {
    /// Step 1: along the trailer and downwards at once, each so much.
    pub first: f64,
    /// Steps 2 and 3: along the trailer.
    pub long: f64,
    /// Steps 2 and 3: downwards.
    pub press: f64,
    /// Steps 4 and 5: across.
    pub across: f64,
}

/// The forces that a weight-carrying hitch is tested with.
///
/// ```
/// use pintle_calc::tow::couplers::hitch_test;
/// let test = hitch_test(3500.0);
/// assert!((test.first - 2125.0).abs() < 1e-9 && (test.across - 1200.0).abs() < 1e-9);
/// ```
pub fn hitch_test(r: f64) -> HitchTest {
    HitchTest { first: 0.47 * r + 480.0, long: 0.23 * r + 1530.0, press: 0.15 * r, across: 0.20 * r + 500.0 }
}

/// Kilograms in pounds.
pub fn in_pounds(kilograms: f64) -> f64 {
    kilograms / POUND
}
