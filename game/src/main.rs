//! x
fn main() {
    let a: Vec<String> = std::env::args().collect();
    let sheet = ashlane_shared::conditions::demonstration_sheet().unwrap();
    if a.len() > 1 {
        let mut ui = ashlane_panels::state::UiState::default();
        if let Ok(p) = std::env::var("PCT") {
            ui.text_percent = p.parse().unwrap();
        }
        if std::env::var("LIGHT").is_ok() {
            ui.theme = ashlane_panels::theme::Theme::Light;
        }
        let size: Vec<u32> = a[3].split('x').map(|x| x.parse().unwrap()).collect();
        let p = ashlane::pictures::Picture {
            sheet,
            view: a[1].clone(),
            out: a[2].clone().into(),
            size: (size[0], size[1]),
            svg: a[2].ends_with("svg"),
            ui,
        };
        ashlane::pictures::make(&p).unwrap();
    } else {
        ashlane::open_window(sheet, None).unwrap();
    }
}
