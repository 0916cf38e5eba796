//! The folder, one per user, in which tools of fixed versions are kept for every clone.

use std::fs::{self, File, TryLockError};
use std::path::{Path, PathBuf};

use crate::Outcome;

/// The cache folder. Only `tools` in it outlives a set-up.
#[derive(Clone, Debug)]
pub struct Cache {
    folder: PathBuf,
}

impl Cache {
    /// The cache the environment asks for: `HOLDWATER_CACHE`, else the system's usual place.
    pub fn of_this_user() -> Outcome<Self> {
        let from = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
        let folder = from("HOLDWATER_CACHE")
            .map(PathBuf::from)
            .or_else(|| from("XDG_CACHE_HOME").map(|base| Path::new(&base).join("holdwater")))
            .or_else(|| from("LOCALAPPDATA").map(|base| Path::new(&base).join("holdwater")))
            .or_else(|| from("HOME").map(|base| Path::new(&base).join(".cache/holdwater")))
            .ok_or("set HOLDWATER_CACHE to a folder in which build tools may be kept")?;
        let folder = std::path::absolute(&folder)
            .map_err(|error| format!("{} is no usable folder: {error}", folder.display()))?;
        Ok(Self { folder })
    }

    /// A cache in a folder of the caller's choice.
    #[must_use]
    pub fn at(folder: &Path) -> Self {
        Self { folder: folder.to_path_buf() }
    }

    /// Where the tool with this versioned name is, or would be.
    #[must_use]
    pub fn tool(&self, name: &str) -> PathBuf {
        self.folder.join("tools").join(name)
    }

    /// Waits until no other clone is installing, and keeps others waiting until it is dropped.
    pub fn lock(&self) -> Outcome<Lock> {
        let path = self.folder.join("lock");
        let complain = |error| format!("{} cannot be locked: {error}", path.display());
        fs::create_dir_all(&self.folder).map_err(complain)?;
        let file = File::create(&path).map_err(complain)?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => {
                println!("-- waiting for another set-up that is using the same cache ...");
                file.lock().map_err(complain)?;
            }
            Err(TryLockError::Error(error)) => return Err(complain(error)),
        }
        Ok(Lock { _file: file })
    }

    /// Installs into a folder of another name and renames it when all went well, so that an
    /// interrupted installation is never taken for a whole one.
    pub fn install(&self, _proof: &Lock, name: &str, work: impl FnOnce(&Path) -> Outcome) -> Outcome {
        let partial = self.tool("partial");
        let whole = self.tool(name);
        let complain = |error| format!("{name} cannot be put in place: {error}");
        for leftover in [&partial, &whole] {
            if leftover.exists() {
                fs::remove_dir_all(leftover).map_err(complain)?;
            }
        }
        fs::create_dir_all(&partial).map_err(complain)?;
        work(&partial)?;
        fs::rename(&partial, &whole).map_err(complain)
    }

    /// Where cargo compiles tools; shared, because trunk and wasm-bindgen have crates in common.
    #[must_use]
    pub fn build_dir(&self) -> PathBuf {
        self.folder.join("build")
    }

    /// Removes what was only needed while installing: some hundred megabytes.
    pub fn remove_build_dir(&self, _proof: &Lock) {
        // A folder that stays behind costs space, not correctness, and is used again next time.
        let _ = fs::remove_dir_all(self.build_dir());
    }
}

/// Proof that no other set-up is writing to the cache.
#[derive(Debug)]
pub struct Lock {
    _file: File,
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scratch(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("holdwater-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        folder
    }

    #[test]
    fn an_interrupted_installation_leaves_nothing_under_the_final_name() {
        let folder = scratch("cache");
        let cache = Cache::at(&folder);
        let lock = cache.lock().unwrap();
        let interrupted = cache.install(&lock, "tool-1", |into| {
            fs::write(into.join("half"), "").unwrap();
            Err("interrupted".to_owned())
        });
        assert_eq!(interrupted, Err("interrupted".to_owned()));
        assert!(!cache.tool("tool-1").exists());

        let whole = cache.install(&lock, "tool-1", |into| {
            assert!(!into.join("half").exists(), "the leftover is cleared away first");
            fs::write(into.join("whole"), "").map_err(|error| error.to_string())
        });
        assert_eq!(whole, Ok(()));
        assert!(cache.tool("tool-1").join("whole").exists());
        fs::remove_dir_all(&folder).unwrap();
    }
}
