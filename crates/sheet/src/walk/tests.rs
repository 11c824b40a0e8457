//! The walk's pages: what they may do, and that the sheet alone may not.

use super::unreadable_page;

#[test]
fn a_page_talks_to_its_own_server_and_is_shown_in_no_other_page() {
    let page = unreadable_page("a.toml", &[]);
    assert!(page.policy.contains("default-src 'none'"), "{}", page.policy);
    assert!(page.policy.contains("; connect-src 'self'"), "{}", page.policy);
    assert!(page.policy.ends_with("; frame-ancestors 'none'"), "{}", page.policy);
    assert!(!page.policy.contains("unsafe"), "{}", page.policy);
    assert!(!crate::policy::policy("", "").contains("connect-src"), "the sheet alone talks to nobody");
}

#[test]
fn what_is_wrong_with_a_spec_is_told_as_text() {
    let told = [("it holds `</ul><script>`".to_owned(), Some("take \u{202e} out".to_owned()))];
    let page = unreadable_page("a<b>.toml", &told);
    assert!(page.html.contains("&lt;/ul&gt;&lt;script&gt;"));
    assert!(!page.html.contains("a<b>") && !page.html.contains('\u{202e}'));
}
