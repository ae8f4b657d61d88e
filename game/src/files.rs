//! Files of the window: sheets in, sheets, pictures and data out. The only place of the window that touches a disk.

use std::path::Path;

use anyhow::{Context, Result};
use ashlane_shared::conditions::{
    Conditions, SITES,
    sheet::{self, Sheet},
};

/// Reads a sheet by its path, or one of the embedded ones by its name.
pub(crate) fn open(path: &Path) -> Result<Sheet> {
    let embedded = SITES
        .iter()
        .find(|(name, _)| Path::new(name) == path && !path.exists());
    Ok(match embedded {
        Some((name, text)) => sheet::read_str(name, text)?,
        None => sheet::read_file(path)?,
    })
}

/// Writes the present conditions over a sheet's file, keeping the author's words, order and units.
///
/// The drift velocities are those that hold now, so that a saved sheet is the same machine.
pub(crate) fn save(sheet: &Sheet, conditions: &Conditions, path: &Path) -> Result<Sheet> {
    let drifts_m_s = ashlane_shared::simulation::fixed_drifts_m_s(conditions)?;
    let rebased = conditions.rebased_with_drifts(&drifts_m_s);
    let text = sheet.save_rebased(&rebased);
    sheet::write_atomically(path, &text)?;
    let name = path.to_string_lossy();
    sheet::read_str(&name, &text)
        .with_context(|| format!("{name} was written, but does not read back"))
}

/// Writes a file, whole or not at all.
pub(crate) fn write(path: &Path, contents: impl AsRef<[u8]>) -> Result<()> {
    sheet::write_atomically(path, contents)?;
    Ok(())
}

/// Sheets to offer: those in the working folder, then the embedded ones.
pub(crate) fn offered() -> Vec<String> {
    let mut names: Vec<String> = std::fs::read_dir(".")
        .map(|entries| {
            entries
                .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
                .filter(|name| name.ends_with(".toml") && name != "Cargo.toml")
                .filter(|name| {
                    !matches!(
                        name.as_str(),
                        "rustfmt.toml" | "clippy.toml" | "deny.toml" | "typos.toml"
                    )
                })
                .collect()
        })
        .unwrap_or_default();
    names.sort();
    names.extend(SITES.iter().map(|(name, _)| (*name).to_owned()));
    names
}
