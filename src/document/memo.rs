//! A derived value that is computed again only when what it depends on has changed.

/// The last computed value with the key it was computed for.
#[derive(Clone, Debug)]
pub struct Memo<K, V> {
    stored: Option<(K, V)>,
}

impl<K, V> Default for Memo<K, V> {
    fn default() -> Self {
        Self { stored: None }
    }
}

impl<K: PartialEq, V> Memo<K, V> {
    /// The value for `key`: the stored one if the key is unchanged, otherwise `compute()`.
    pub fn get(&mut self, key: K, compute: impl FnOnce() -> V) -> &V {
        let stored = match self.stored.take() {
            Some(stored) if stored.0 == key => stored,
            _ => (key, compute()),
        };
        &self.stored.insert(stored).1
    }

    /// The value for `key`, if it is the stored one.
    pub fn stored(&self, key: &K) -> Option<&V> {
        self.stored.as_ref().filter(|stored| stored.0 == *key).map(|stored| &stored.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn computes_once_for_a_key() {
        let mut memo = Memo::default();
        let mut computed = 0;
        for key in [1, 1, 2, 1] {
            memo.get(key, || computed += 1);
        }
        assert_eq!(computed, 3);
        assert!(memo.stored(&1).is_some() && memo.stored(&2).is_none());
    }
}
