//! The same work on many things, shared by all processors.

use std::sync::OnceLock;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What `work` makes of every item, in the items' order whatever the number of processors.
pub(crate) fn map<T: Sync, R: Send>(items: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let next = AtomicUsize::new(0);
    let share = || {
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(index) else {
                return done;
            };
            done.push((index, work(item)));
        }
    };
    let helpers = processors().min(items.len());
    let mut done = thread::scope(|scope| {
        let others: Vec<_> = (1..helpers).map(|_| scope.spawn(share)).collect();
        let mut done = share();
        for other in others {
            match other.join() {
                Ok(part) => done.extend(part),
                Err(cause) => std::panic::resume_unwind(cause),
            }
        }
        done
    });
    done.sort_by_key(|(index, _)| *index);
    done.into_iter().map(|(_, result)| result).collect()
}

/// As [`map`] for work that can fail: the first failure in the items' order.
pub(crate) fn try_map<T: Sync, R: Send, E: Send>(
    items: &[T],
    work: impl Fn(&T) -> Result<R, E> + Sync,
) -> Result<Vec<R>, E> {
    map(items, work).into_iter().collect()
}

/// How many there are; asked once, since the system answers slowly.
fn processors() -> usize {
    static PROCESSORS: OnceLock<usize> = OnceLock::new();
    *PROCESSORS.get_or_init(|| thread::available_parallelism().map_or(1, usize::from))
}

#[cfg(test)]
mod tests {
    #[test]
    fn results_stand_in_the_items_order() {
        let items: Vec<u64> = (0..500).collect();
        let squares: Vec<u64> = items.iter().map(|i| i * i).collect();
        assert_eq!(super::map(&items, |i| i * i), squares);
        assert!(super::map(&[], |i: &u64| *i).is_empty());
    }
}
