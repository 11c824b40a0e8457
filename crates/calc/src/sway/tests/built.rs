//! Figures of whole builds.
