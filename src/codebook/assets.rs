//! The fact files built into the program.

use super::asset::Asset;
use super::threaded::ThreadedAssets;

macro_rules! asset {
    ($path:literal) => {
        Asset {
            file: concat!("assets/", $path),
            text: include_str!(concat!("../../assets/", $path)),
        }
    };
}

pub(super) const STEEL40: Asset = asset!("pipe/steel40.tsv");
pub(super) const COPPER_K: Asset = asset!("pipe/copper_k.tsv");
pub(super) const COPPER_L: Asset = asset!("pipe/copper_l.tsv");
pub(super) const CSST: Asset = asset!("pipe/csst.tsv");
pub(super) const PE: Asset = asset!("pipe/pe.tsv");
pub(super) const FUELS: Asset = asset!("fuels.tsv");
pub(super) const SG_MULTIPLIERS: Asset = asset!("sg_multipliers.tsv");
pub(super) const FITTINGS: Asset = asset!("fittings.tsv");
pub(super) const SUPPORTS: Asset = asset!("supports.tsv");
pub(super) const STOCK: Asset = asset!("stock.tsv");
pub(super) const APPLIANCES: Asset = asset!("appliances.tsv");
pub(super) const PURGE: Asset = asset!("purge.tsv");
pub(super) const CLAUSES: Asset = asset!("clauses.tsv");
pub(super) const PERMIT_ITEMS: Asset = asset!("permit_items.tsv");
pub(super) const PERMIT_SOURCES: Asset = asset!("permit_sources.tsv");

pub(super) const THREADED: ThreadedAssets = ThreadedAssets {
    fittings: asset!("threaded/fittings.tsv"),
    reducing: asset!("threaded/reducing.tsv"),
    make_up: asset!("threaded/make_up.tsv"),
    nipples: asset!("threaded/nipples.tsv"),
};

pub(super) const PROFILES: [Asset; 5] = [
    asset!("profiles/us-ifgc.ron"),
    asset!("profiles/us-ca.ron"),
    asset!("profiles/us-federal.ron"),
    asset!("profiles/metric-equation.ron"),
    asset!("profiles/ca-b149.ron"),
];

pub(super) const TABLES: [Asset; 34] = [
    asset!("tables/ifgc-402.4/01-steel-natural-below2psi-0.3inwc.tsv"),
    asset!("tables/ifgc-402.4/02-steel-natural-below2psi-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/03-steel-natural-below2psi-3inwc.tsv"),
    asset!("tables/ifgc-402.4/04-steel-natural-below2psi-6inwc.tsv"),
    asset!("tables/ifgc-402.4/05-steel-natural-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/06-steel-natural-3psi-2psi.tsv"),
    asset!("tables/ifgc-402.4/07-steel-natural-5psi-3.5psi.tsv"),
    asset!("tables/ifgc-402.4/08-copper-natural-below2psi-0.3inwc.tsv"),
    asset!("tables/ifgc-402.4/09-copper-natural-below2psi-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/10-copper-natural-below2psi-1inwc.tsv"),
    asset!("tables/ifgc-402.4/11-copper-natural-below2psi-17inwc.tsv"),
    asset!("tables/ifgc-402.4/12-copper-natural-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/13-copper-natural-2psi-1.5psi.tsv"),
    asset!("tables/ifgc-402.4/14-copper-natural-5psi-3.5psi.tsv"),
    asset!("tables/ifgc-402.4/15-csst-natural-below2psi-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/16-csst-natural-below2psi-3inwc.tsv"),
    asset!("tables/ifgc-402.4/17-csst-natural-below2psi-6inwc.tsv"),
    asset!("tables/ifgc-402.4/18-csst-natural-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/19-csst-natural-5psi-3.5psi.tsv"),
    asset!("tables/ifgc-402.4/20-pe-natural-below2psi-0.3inwc.tsv"),
    asset!("tables/ifgc-402.4/21-pe-natural-below2psi-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/22-pe-natural-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/25-steel-propane-10psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/26-steel-propane-10psi-3psi.tsv"),
    asset!("tables/ifgc-402.4/27-steel-propane-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/28-steel-propane-11inwc-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/29-copper-propane-10psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/30-copper-propane-11inwc-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/31-copper-propane-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/32-csst-propane-11inwc-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/33-csst-propane-2psi-1psi.tsv"),
    asset!("tables/ifgc-402.4/34-csst-propane-5psi-3.5psi.tsv"),
    asset!("tables/ifgc-402.4/35-pe-propane-11inwc-0.5inwc.tsv"),
    asset!("tables/ifgc-402.4/36-pe-propane-2psi-1psi.tsv"),
];
