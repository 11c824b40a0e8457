//! Documents of several specs as one JSON text.

use serde::Serialize;

use crate::safe;

/// One text: the format's name and version, and a document for each spec.
pub(crate) fn json<D: Serialize>(format: &'static str, version: u32, specs: &[D]) -> String {
    #[derive(Serialize)]
    struct Whole<'d, D> {
        format: &'static str,
        version: u32,
        specs: &'d [D],
    }
    let text = serde_json::to_string_pretty(&Whole { format, version, specs })
        .unwrap_or_else(|error| format!("the document could not be written: {error}"));
    safe::json(text + "\n")
}
