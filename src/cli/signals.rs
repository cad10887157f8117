//! Ctrl-C and a request to end, noticed between two steps so that the program can tidy up.

use std::io;

/// The signals that ask the program to end. The first is noted; a second one ends it at once.
#[derive(Debug)]
pub(super) struct Signals {
    #[cfg(unix)]
    number: std::sync::Arc<std::sync::atomic::AtomicUsize>,
}

impl Signals {
    /// Notes signals from now on.
    #[cfg(unix)]
    pub fn new() -> io::Result<Self> {
        use signal_hook::consts::{SIGINT, SIGTERM};
        use signal_hook::flag;
        use std::sync::Arc;
        use std::sync::atomic::AtomicBool;
        let number = Arc::default();
        for (signal, value) in [(SIGINT, SIGINT as usize), (SIGTERM, SIGTERM as usize)] {
            let second = Arc::new(AtomicBool::new(false));
            flag::register_conditional_default(signal, Arc::clone(&second))?;
            flag::register(signal, second)?;
            flag::register_usize(signal, Arc::clone(&number), value)?;
        }
        Ok(Self { number })
    }

    /// The number of the signal that came, if one did.
    #[cfg(unix)]
    pub fn number(&self) -> Option<u8> {
        let number = self.number.load(std::sync::atomic::Ordering::SeqCst);
        u8::try_from(number).ok().filter(|number| *number > 0)
    }

    #[cfg(not(unix))]
    #[expect(clippy::unnecessary_wraps)]
    pub fn new() -> io::Result<Self> {
        Ok(Self {})
    }

    #[cfg(not(unix))]
    #[expect(clippy::unused_self)]
    pub fn number(&self) -> Option<u8> {
        None
    }

    /// An error once a signal came.
    pub fn check(&self) -> io::Result<()> {
        match self.number() {
            Some(_) => Err(io::ErrorKind::Interrupted.into()),
            None => Ok(()),
        }
    }
}
