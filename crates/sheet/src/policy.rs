//! The content security policy of a page: nothing is fetched, and only the style and the script that the page was
//! made with are obeyed, known by their hashes.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

/// The policy for a page with this style and this script.
pub(crate) fn policy(style: &str, script: &str) -> String {
    format!(
        "default-src 'none'; style-src '{}'; script-src '{}'; img-src data:; base-uri 'none'; form-action 'none'",
        hash(style),
        hash(script)
    )
}

/// The policy of a page that talks to the server that it came from, and to nobody else. The server sends it as a header
/// too, and may then forbid that the page is shown within another.
pub(crate) fn policy_of_walk(style: &str, script: &str) -> String {
    format!("{}; connect-src 'self'", policy(style, script))
}

fn hash(of: &str) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(of.as_bytes())))
}

#[cfg(test)]
mod tests {
    /// The digest of the empty text, from FIPS 180-4's examples as commonly printed: e3b0c442…b855.
    #[test]
    fn an_empty_style_has_the_known_hash() {
        assert_eq!(super::hash(""), "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
    }
}
