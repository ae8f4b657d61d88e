//! What this machine can do: whether a window can be opened, and what would draw it.

use bevy::tasks::block_on;

/// Whether there is a display to open a window on.
#[must_use]
pub fn has_display() -> bool {
    display()
}

/// A window of ours needs an X server, as every desktop of Linux and the BSDs has; asking it is the only sure way.
#[cfg(all(unix, not(target_vendor = "apple"), not(target_os = "android")))]
fn display() -> bool {
    x11rb::connect(None).is_ok()
}

#[cfg(not(all(unix, not(target_vendor = "apple"), not(target_os = "android"))))]
fn display() -> bool {
    true
}

/// Name of a GPU or software renderer that the engine can use; nothing where it would find none.
#[must_use]
pub fn adapter() -> Option<String> {
    let descriptor = wgpu::InstanceDescriptor::new_without_display_handle_from_env();
    let backends = descriptor.backends;
    let instance = wgpu::Instance::new(descriptor);
    let adapters = block_on(instance.enumerate_adapters(backends));
    adapters
        .first()
        .map(|adapter| adapter.get_info().name.clone())
}
