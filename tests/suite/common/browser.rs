//! A headless browser as an independent reader of SVG.

use std::path::{Path, PathBuf};
use std::process::Command;

const NAMES: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];

/// The browser; `None` when the environment says to go without, a panic when there is none.
pub fn find() -> Option<PathBuf> {
    if std::env::var("BOARDWRIGHT_SKIP_BROWSER").is_ok_and(|v| v == "1") {
        return None;
    }
    let folders = std::env::var_os("PATH").unwrap_or_default();
    let found = std::env::split_paths(&folders)
        .flat_map(|folder| NAMES.map(|name| folder.join(name)))
        .find(|path| path.is_file());
    assert!(
        found.is_some(),
        "none of {NAMES:?} is on the PATH; install one or set BOARDWRIGHT_SKIP_BROWSER=1"
    );
    found
}

/// Renders a page to `png` at one device pixel a CSS pixel.
pub fn screenshot(browser: &Path, page: &Path, png: &Path, width: u32, height: u32) {
    let profile = png.with_extension("profile");
    let output = Command::new(browser)
        .args([
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--disable-component-update",
            "--disable-sync",
            "--force-device-scale-factor=1",
            "--hide-scrollbars",
        ])
        .arg(format!("--user-data-dir={}", profile.display()))
        .arg(format!("--window-size={width},{height}"))
        .arg(format!("--screenshot={}", png.display()))
        .arg(format!("file://{}", page.display()))
        .output()
        .unwrap();
    let errors = String::from_utf8_lossy(&output.stderr);
    assert!(png.exists(), "the browser wrote no picture:\n{errors}");
}
