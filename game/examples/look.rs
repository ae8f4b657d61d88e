//! x
use ashlane::{Arrangement, Stage};
use ashlane_panels::state::{PlanWindow, Rung, UiState};
use ashlane_panels::zoom::Eye;
use ashlane_shared::conditions::demonstration_sheet;
fn save(stage: &mut Stage, name: &str) {
    let image = stage.picture().unwrap();
    let (w, h) = (image.width(), image.height());
    let mut data = image.data.clone().unwrap();
    for p in data.chunks_mut(4) {
        p[3] = 255;
    }
    let f = std::fs::File::create(format!("/tmp/look/{name}.png")).unwrap();
    let mut e = png::Encoder::new(std::io::BufWriter::new(f), w, h);
    e.set_color(png::ColorType::Rgba);
    e.set_depth(png::BitDepth::Eight);
    e.write_header().unwrap().write_image_data(&data).unwrap();
}
fn main() {
    let (w, h, percent) = (1440, 900, 100);
    let ui = UiState {
        rung: Rung::Elevation,
        text_percent: percent,
        ..UiState::default()
    };
    let sheet = demonstration_sheet().unwrap();
    let mut stage = Stage::new(&sheet, ui, (w, h), Arrangement::Window).unwrap();
    stage.follow(5e-6).unwrap();
    stage.fly(2400);
    stage.count().unwrap();
    stage.frames(8).unwrap();
    save(&mut stage, "y0");
    stage.ui().eye = Eye {
        centre_m: [5.0, 5.0],
        times: 2.5,
    };
    stage.frames(60).unwrap();
    save(&mut stage, "y1");
    stage.ui().rung = Rung::Plan;
    stage.ui().window = PlanWindow {
        start_m: 3.0,
        length_m: 3.0,
    };
    stage.frames(12).unwrap();
    save(&mut stage, "y2");
    stage.frames(60).unwrap();
    save(&mut stage, "y3");
    stage.ui().rung = Rung::Wire;
    stage.ui().field = 1;
    stage.frames(60).unwrap();
    save(&mut stage, "y4");
    stage.ui().rung = Rung::Grain;
    stage.frames(60).unwrap();
    save(&mut stage, "y5");
}
