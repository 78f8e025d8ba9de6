//! Updates of the shelf: checked whole before anything is written.

use sprag_catalogue::View;
use sprag_catalogue::store::{Money, ShelfEntry};
use sprag_proto::text::{Fault, minor_digits};
use sprag_proto::v1 as pb;
use tonic::Status;

use super::invalid;
use crate::rpc::status::Refusal;

/// Near spellings looked for in one request: each costs a walk over the catalogue.
const NEAR_HINTS_MAX: usize = 3;
const SHELF_ENTRIES_MAX: usize = 1000;
const STOCK_MAX: i64 = 1_000_000;

/// The entries of an update, or all its faults at once.
pub(super) fn read_shelf(request: &pb::UpdateShelfRequest, view: &View) -> Result<Vec<ShelfEntry>, Status> {
    let mut faults = Vec::new();
    let mut unknown = Vec::new();
    if request.entries.is_empty() || request.entries.len() > SHELF_ENTRIES_MAX {
        return Err(invalid("entries", format!("{} entries", request.entries.len()), "1 to 1000"));
    }
    let mut fault = |path: String, found: String, wanted: &str| {
        faults.push(Fault { path, found, wanted: wanted.into(), nearest: None });
    };
    for (index, entry) in request.entries.iter().enumerate() {
        let at = format!("entries[{index}]");
        if view.snapshot.by_sku(&entry.sku).is_none() {
            unknown.push(Fault {
                path: format!("{at}.sku"),
                found: format!(
                    "no part {:?} in the catalogue",
                    entry.sku.chars().take(100).collect::<String>()
                ),
                wanted: "a part of the catalogue".into(),
                nearest: if unknown.len() < NEAR_HINTS_MAX {
                    view.snapshot.near_sku(&entry.sku)
                } else {
                    None
                },
            });
        }
        if let Some(stock) = entry.stock.filter(|stock| !(0..=STOCK_MAX).contains(stock)) {
            fault(format!("{at}.stock"), stock.to_string(), "0 to 1 000 000");
        }
        if let Some(price) = &entry.price {
            if minor_digits(&price.currency_code).is_none() {
                fault(
                    format!("{at}.price.currency_code"),
                    format!("{:?}", price.currency_code),
                    "an ISO 4217 code",
                );
            }
            if price.minor_units < 0 {
                fault(format!("{at}.price.minor_units"), price.minor_units.to_string(), "0 or more");
            }
        }
    }
    if !faults.is_empty() {
        return Err(Refusal::Invalid(faults).into());
    }
    if !unknown.is_empty() {
        return Err(Refusal::UnknownParts(unknown).into());
    }
    let write = |entry: &pb::ShelfEntry| ShelfEntry {
        sku: entry.sku.clone(),
        price: entry.price.as_ref().map(|price| Money {
            currency_code: price.currency_code.clone(),
            minor_units: price.minor_units,
        }),
        stock: entry.stock.and_then(|stock| u64::try_from(stock).ok()),
    };
    Ok(request.entries.iter().map(write).collect())
}
