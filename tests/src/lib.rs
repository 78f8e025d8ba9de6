//! Nothing of its own: the package exists for its tests.
