//! Lesson engine.
