//! The page that stands in frames of other sites: the start page, with what keeps nothing and what speaks with the page around.

use super::change::{once, without_lines};
use anyhow::Result;

/// Made of the finished start page; what it names anew has the names of the sources. `around` is put after the program.
pub(super) fn page(start: &str, around: &str) -> Result<String> {
    let key = "<a href=\"key.html\">";
    // No icon of its own, no place on the home screen, nothing to be found by a search.
    let page = without_lines(start, "<link rel=\"manifest\"")?;
    let page = without_lines(&page, "<link rel=\"apple-touch-icon\"")?;
    let page = without_lines(&page, "<meta name=\"description\"")?;
    let page = once(&page, "<title>", "<meta name=\"robots\" content=\"noindex\">\n<title>")?;
    let memory = "<script src=\"memory.js\" data-outside=\"./\"></script>\n";
    let page = once(&page, "<script src=\"early", &format!("{memory}<script src=\"early"))?;
    let frame =
        "<link rel=\"stylesheet\" href=\"frame.css\">\n<script type=\"module\" src=\"frame.js\"></script>\n";
    // Before the start script: it listens to what that one says.
    let page = once(&page, "<script id=\"boot\"", &format!("{frame}<script id=\"boot\""))?;
    let page = once(&page, "id=\"trouble-again\" href=\"./\"", "id=\"trouble-again\" href=\"frame.html\"")?;
    let page = page.replace(key, "<a href=\"key.html\" target=\"_blank\" rel=\"noopener\">");
    once(&page, "</body>", &format!("{around}</body>"))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failing unwrap is a failing test")]
    use super::page;

    const START: &str = "<meta name=\"description\" content=\"x\">\n<title>x</title>\n<script src=\"early-1.js\"></script>\n\
                         <link rel=\"manifest\" href=\"m\">\n<link rel=\"apple-touch-icon\" href=\"i\">\n\
                         <script id=\"boot\" src=\"b.js\"></script>\n<a id=\"trouble-again\" href=\"./\">\n\
                         <a href=\"key.html\"> <a href=\"key.html\">\n</body>\n";

    #[test]
    fn the_frame_is_the_start_page_without_what_it_may_not_do() {
        let frame = page(START, "<footer></footer>\n").unwrap();
        for gone in ["manifest", "apple-touch", "description", "href=\"./\""] {
            assert!(!frame.contains(gone), "{gone}");
        }
        assert!(frame.find("memory.js").unwrap() < frame.find("early-1.js").unwrap());
        assert!(frame.find("frame.js").unwrap() < frame.find("id=\"boot\"").unwrap());
        assert!(frame.contains("<footer></footer>\n</body>") && frame.contains("noindex"));
        assert_eq!(frame.matches("target=\"_blank\"").count(), 2);
        assert!(page(&START.replace("early-1", "late-1"), "").is_err());
    }
}
