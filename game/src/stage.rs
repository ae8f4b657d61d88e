//! The whole window without a window: drawn into an image, its clock driven by hand.
//!
//! For pictures and for tests: the same systems as on screen, one tick of the flight a frame.

use std::time::Duration;

use anyhow::{Context, Result, anyhow, bail};
use ashlane_lessons::engine::Card;
use ashlane_panels::{command::UiCommand, faults::FaultSwitch, state::UiState};
use ashlane_shared::{
    conditions::{Conditions, sheet::Sheet},
    simulation::{Clock, Command, Follow, LoggedCommand},
};
use bevy::{
    camera::RenderTarget,
    prelude::*,
    render::{
        render_resource::{PollType, TextureFormat},
        renderer::RenderDevice,
        view::screenshot::{Screenshot, ScreenshotCaptured},
    },
    time::TimeUpdateStrategy,
};

use crate::{
    app::{self, Overlap},
    close_looks::CloseLooks,
    commands::Wishes,
    compare::Compare,
    counting::Counting,
    flight::{Flight, TICKS_PER_S},
    interface::Arrangement,
    lesson::Lessons,
    machine,
    pace::Pace,
    plant_days::PlantDays,
    session::Session,
};

/// What to say where nothing can be rendered.
const NO_RENDERER: &str = "this machine has no GPU and no software renderer that the program can use (Vulkan); a line drawing with --svg needs none";
/// Frames that egui and the GPU need until everything stands where it belongs.
const FRAMES: u32 = 6;
/// Frames after which a picture that has not come is waited for, and after which it will not come.
const AT_ONCE: u32 = 30;
const PATIENCE: u32 = 1500;
/// Frames after which a count that has not settled will not settle.
const MOST_FRAMES: u32 = 20_000;

/// The window on a stage.
pub struct Stage {
    app: App,
}

impl std::fmt::Debug for Stage {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Stage").finish_non_exhaustive()
    }
}

impl Stage {
    /// Sets the stage: a size in pixels, a sheet, a look. The flight stands until [`Self::fly`] or a command runs it.
    ///
    /// # Errors
    /// No GPU and no software renderer, conditions that cannot be computed.
    pub fn new(
        sheet: &Sheet,
        ui: UiState,
        size: (u32, u32),
        arrangement: Arrangement,
    ) -> Result<Self> {
        Self::set(sheet, ui, size, (arrangement, Overlap::No))
    }

    /// As [`Self::new`], but a frame is drawn while the next one is worked out, as in a window: for measuring how many
    /// come in a second. A picture then is one frame behind.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn flowing(
        sheet: &Sheet,
        ui: UiState,
        size: (u32, u32),
        arrangement: Arrangement,
    ) -> Result<Self> {
        Self::set(sheet, ui, size, (arrangement, Overlap::Yes))
    }

    fn set(
        sheet: &Sheet,
        ui: UiState,
        (width, height): (u32, u32),
        (arrangement, overlap): (Arrangement, Overlap),
    ) -> Result<Self> {
        if machine::adapter().is_none() {
            bail!(NO_RENDERER);
        }
        let mut flight = Flight::new(sheet.conditions.clone())?;
        flight.running = false;
        let target = |app: &mut App| {
            let image =
                Image::new_target_texture(width, height, TextureFormat::Rgba8UnormSrgb, None);
            RenderTarget::from(app.world_mut().resource_mut::<Assets<Image>>().add(image))
        };
        let mut app = app::offscreen(target, overlap);
        let mut session = Session::new(sheet.clone(), None);
        session.ui = ui;
        let tick = Duration::from_secs_f64(1.0 / TICKS_PER_S);
        app.insert_resource(flight)
            .insert_resource(session)
            .insert_resource(arrangement)
            .insert_resource(Taken(None))
            .insert_resource(TimeUpdateStrategy::ManualDuration(tick))
            .add_plugins(app::plugin);
        app.finish();
        app.cleanup();
        Ok(Self { app })
    }

    /// Starts the flight anew with about so many grains in the gas at a time.
    ///
    /// # Errors
    /// Conditions that cannot be computed.
    pub fn draw_grains(&mut self, grains: usize) -> Result<()> {
        let mut flight = self.app.world_mut().resource_mut::<Flight>();
        let fresh = Flight::new(flight.conditions().clone())?.with_drawn(grains)?;
        flight.replace_with(fresh);
        Ok(())
    }

    /// Follows the next grain of about this diameter, m.
    ///
    /// # Errors
    /// A diameter that no grain can have.
    pub fn follow(&mut self, diameter_m: f64) -> Result<()> {
        let wish = Command::Follow(Some(Follow { diameter_m }));
        Ok(self.app.world_mut().resource_mut::<Flight>().apply(wish)?)
    }

    /// Runs this clock from now on.
    ///
    /// # Errors
    /// A plant clock that is too slow or too fast.
    pub fn turn_to(&mut self, clock: Clock) -> Result<()> {
        let wish = Command::Clock(clock);
        Ok(self.app.world_mut().resource_mut::<Flight>().apply(wish)?)
    }

    /// Flies steps at once, without drawing.
    pub fn fly(&mut self, steps: u64) {
        self.app.world_mut().resource_mut::<Flight>().step(steps);
    }

    /// Lets work wait for frames, as in a browser.
    pub fn without_threads(&mut self) {
        self.app.world_mut().resource_mut::<Pace>().by_frames = true;
    }

    /// Flies on until the record of the followed grain is at its end, if one is followed.
    pub fn finish_record(&mut self) {
        self.app
            .world_mut()
            .resource_mut::<Flight>()
            .finish_record();
    }

    /// Counts and solves at once, so that the next picture shows a finished count.
    ///
    /// # Errors
    /// Conditions that cannot be computed.
    pub fn count(&mut self) -> Result<()> {
        let flight = self.app.world().resource::<Flight>();
        let (conditions, generation) = (flight.conditions().clone(), flight.generation());
        let world = self.app.world_mut();
        world
            .resource_mut::<Counting>()
            .settle_now(&conditions, generation)
            .map_err(|error| anyhow!("the count: {error}"))?;
        let field = world.resource::<Session>().ui.field;
        world
            .resource_scope(|world, mut looks: Mut<CloseLooks>| {
                looks.settle_now(world.resource::<Flight>(), field)
            })
            .map_err(|error| anyhow!("the electrical set: {error}"))?;
        let order = world.resource::<Flight>().machine().rate_order();
        let theory = world.resource::<Counting>().theory.clone();
        let theory = theory.context("a finished count has its theory")?;
        world
            .resource_mut::<PlantDays>()
            .settle_now(generation, &order, &theory)
            .map_err(|error| anyhow!("the plant clock: {error}"))
    }

    /// Hands the window a command, as if a panel had asked for it.
    pub fn send(&mut self, command: UiCommand) {
        self.app
            .world_mut()
            .resource_mut::<Wishes>()
            .0
            .push(command);
    }

    /// Draws frames, each a tick of the flight if it runs.
    ///
    /// # Errors
    /// The GPU does not answer.
    pub fn frames(&mut self, frames: u32) -> Result<()> {
        for _ in 0..frames {
            self.app.update();
            self.wait_for_gpu()?;
        }
        Ok(())
    }

    /// Draws frames until count and theory of the present conditions are there and no measurement is under way;
    /// returns how many it took.
    ///
    /// # Errors
    /// They do not come.
    pub fn settle(&mut self) -> Result<u32> {
        for frame in 1..=MOST_FRAMES {
            self.frames(1)?;
            let world = self.app.world();
            if world.resource::<Counting>().is_settled()
                && !world.resource::<Lessons>().is_measuring()
            {
                return Ok(frame);
            }
        }
        bail!("the count did not settle in {MOST_FRAMES} frames")
    }

    /// What is flown.
    #[must_use]
    pub fn conditions(&self) -> &Conditions {
        self.app.world().resource::<Flight>().conditions()
    }

    /// What sheet and controls say: what is flown, but for the faults that are set.
    #[must_use]
    pub fn controls(&self) -> &Conditions {
        self.app.world().resource::<Flight>().controls()
    }

    /// What is pinned to compare with, as its controls say.
    #[must_use]
    pub fn pinned(&self) -> Option<&Conditions> {
        self.app.world().resource::<Compare>().controls()
    }

    /// The faults that are set.
    #[must_use]
    pub fn faults(&self) -> &[FaultSwitch] {
        self.app.world().resource::<Flight>().faults().set
    }

    /// What was asked of the machine so far: with its first conditions and its seed a recording.
    #[must_use]
    pub fn log(&self) -> &[LoggedCommand] {
        self.app.world().resource::<Flight>().machine().log()
    }

    /// The state of the flight as one number: the same bits give the same number.
    #[must_use]
    pub fn digest(&self) -> u64 {
        self.app.world().resource::<Flight>().digest()
    }

    /// Steps flown since the start.
    #[must_use]
    pub fn step(&self) -> u64 {
        self.app.world().resource::<Flight>().frame().step()
    }

    /// Grains in the gas.
    #[must_use]
    pub fn airborne(&self) -> usize {
        self.app
            .world()
            .resource::<Flight>()
            .frame()
            .grains()
            .count()
    }

    /// The card of the open lesson.
    #[must_use]
    pub fn card(&self) -> Option<Card<'_>> {
        self.app.world().resource::<Lessons>().card()
    }

    /// The state of the presentation.
    pub fn ui(&mut self) -> Mut<'_, UiState> {
        self.app
            .world_mut()
            .resource_mut::<Session>()
            .map_unchanged(|session| &mut session.ui)
    }

    /// What the window has to tell.
    #[must_use]
    pub fn message(&self) -> Option<String> {
        let session = self.app.world().resource::<Session>();
        session.message.as_ref().map(|message| message.text.clone())
    }

    /// Takes a picture of the present moment.
    ///
    /// # Errors
    /// The renderer gives none.
    pub fn picture(&mut self) -> Result<Image> {
        self.frames(FRAMES)?;
        let world = self.app.world_mut();
        let mut cameras = world.query::<&RenderTarget>();
        let target = cameras
            .iter(world)
            .next()
            .and_then(|target| target.as_image().cloned())
            .context("the camera draws into no image")?;
        world.spawn(Screenshot::image(target)).observe(
            |captured: On<ScreenshotCaptured>, mut taken: ResMut<Taken>| {
                taken.0 = Some(captured.image.clone());
            },
        );
        for frame in 0..PATIENCE {
            self.frames(1)?;
            if let Some(image) = self.app.world_mut().resource_mut::<Taken>().0.take() {
                return Ok(image);
            }
            if frame >= AT_ONCE {
                // What brings it waits behind other work; a fast machine would have drawn its frames in no time.
                std::thread::sleep(Duration::from_millis(5));
            }
        }
        bail!("the renderer gave no picture in {PATIENCE} frames")
    }

    fn wait_for_gpu(&self) -> Result<()> {
        let device = self.app.world().get_resource::<RenderDevice>();
        let poll = PollType::Wait {
            submission_index: None,
            timeout: None,
        };
        device
            .context(NO_RENDERER)?
            .wgpu_device()
            .poll(poll)
            .map(|_| ())
            .context("the GPU does not answer")
    }
}

/// The picture that came back from the GPU.
#[derive(Resource)]
struct Taken(Option<Image>);
