//! Values from outside the project: one module a source, each number with its origin beside the assert.
//!
//! Where a comment says "from memory of …" the page was not read again; "computed" says by what.
//! `cross_checks` holds the values that other libraries and methods give.

#![expect(
    clippy::expect_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

mod anderson_1919;
mod bickelhaupt_1979;
mod bouguer_1729;
mod chase_1998;
mod clapeyron_1834;
mod close;
mod cochet_1961;
mod cooper_alley_2011;
mod cooperman_1963;
mod corona_solver;
mod cross_checks;
mod davies_1945;
mod de_nevers_2000;
mod epa_ap42;
mod epa_cost_manual;
mod epa_si412b;
mod fan_power;
mod fly_ash_standards;
mod gas_path;
mod hatch_choate_1929;
mod hopper_rows;
mod idelchik_1986;
mod kim_2005;
mod lawless_1996;
mod layer_growth;
mod leonard_1980;
mod leonard_1983;
mod matts_ohnfeldt_1963;
mod maxwell_1873;
mod mott_gurney_1940;
mod nusselt_1916;
mod pauthenier_1932;
mod peek_1929;
mod rapping_fly_ash;
mod sawtooth_sparking;
mod schiller_naumann_1933;
mod seinfeld_pandis_2006;
mod standard_case;
mod taylor_batchelor_1949;
mod townsend_1914;
mod turner_2002;
mod uneven_gas;
mod van_de_hulst_1957;
mod wagner_2000;
mod wet_collector;
mod white_1951;
mod white_1963;
mod white_1974;

use close::{close, printed};
