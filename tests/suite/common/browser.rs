//! A headless browser as an independent reader of SVG.

use std::path::{Path, PathBuf};
use std::process::Command;

use super::outside;

const NAMES: [&str; 3] = ["chromium", "chromium-browser", "google-chrome"];

/// The browser, if there is one.
pub fn find() -> Option<PathBuf> {
    outside::use_program(|| outside::on_path(&NAMES))
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
