//! A picture of the plan from the running window: the next frame is taken and cut to the drawing.

use std::path::PathBuf;

use bevy::{
    camera::RenderTarget,
    prelude::*,
    render::view::screenshot::{Screenshot, ScreenshotCaptured},
};

use crate::{interface::DrawingRect, pictures::write_png, session::Session};

/// Adds the system that takes pictures.
pub(crate) fn plugin(app: &mut App) {
    app.add_systems(Update, take.run_if(resource_exists::<ExportWish>));
}

/// A file to write the next picture to.
#[derive(Resource, Clone, Debug)]
pub(crate) struct ExportWish(pub(crate) PathBuf);

fn take(
    mut commands: Commands,
    wish: Res<ExportWish>,
    drawing: Res<DrawingRect>,
    camera: Single<&RenderTarget, With<Camera2d>>,
    mut session: ResMut<Session>,
) {
    let (path, rect) = (wish.0.clone(), drawing.physical());
    commands.remove_resource::<ExportWish>();
    let Some(rect) = rect else {
        session.complain("Show the section first: the picture is of the drawing.");
        return;
    };
    commands.spawn(Screenshot(camera.clone())).observe(
        move |captured: On<ScreenshotCaptured>, mut session: ResMut<Session>| match write_png(
            &captured.image,
            Some(rect),
            &path,
        ) {
            Ok(()) => session.tell(format!("Picture written to {}.", path.display())),
            Err(error) => session.complain(format!("No picture written. {error:#}")),
        },
    );
}
