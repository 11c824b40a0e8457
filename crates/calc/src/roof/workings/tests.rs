//! Figures of builds.
