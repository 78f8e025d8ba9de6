//! Gears of all builds on one logarithmic scale, as SVG or PNG.
//!
//! Builds differ by shape first and by colour second, crossed gears are hollow, and every gear carries its teeth, so
//! that the picture reads in black and white too.

use std::path::Path;

use anyhow::{Context, anyhow};
use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::register_font;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use sprag_proto::v1 as pb;

const WIDTH: u32 = 1200;
/// From the left edge to the lowest gear, and from the highest gear to the right edge.
const LEFT: i32 = 90;
const RIGHT: i32 = 50;
const TOP: i32 = 58;
const BOTTOM: i32 = 64;
const HEADING: i32 = 34;
const ROW: i32 = 56;
const MARK: i32 = 7;
const FONT: &str = "sans-serif";
const TEXT: f64 = 14.0;
const TITLE: f64 = 17.0;

/// The palette of Color Universal Design (2008), reprinted in Nature Methods 8, page 441 (2011), "Color blindness".
/// Its yellow is left out: too faint on white.
const COLOURS: [RGBColor; 7] = [
    RGBColor(0, 114, 178),
    RGBColor(213, 94, 0),
    RGBColor(0, 158, 115),
    RGBColor(0, 0, 0),
    RGBColor(204, 121, 167),
    RGBColor(230, 159, 0),
    RGBColor(86, 180, 233),
];
const GREY: RGBColor = RGBColor(120, 120, 120);
const PALE: RGBColor = RGBColor(222, 222, 222);

/// Corners of the marks, in hundredths of their half width; none is a disc.
const SHAPES: [&[(i32, i32)]; 6] = [
    &[],
    &[(-90, -90), (90, -90), (90, 90), (-90, 90)],
    &[(0, -115), (110, 85), (-110, 85)],
    &[(0, -125), (125, 0), (0, 125), (-125, 0)],
    &[(0, 115), (110, -85), (-110, -85)],
    &[(-60, -105), (60, -105), (120, 0), (60, 105), (-60, 105), (-120, 0)],
];

/// Ratios that the scale may name.
const TICKS: [f64; 22] = [
    0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0,
    20.0, 30.0,
];

/// Writes an SVG file.
///
/// # Errors
/// There are no gears, or the file cannot be written.
pub fn svg(answers: &[pb::GearingAnswer], path: &Path) -> anyhow::Result<()> {
    let plan = Plan::new(answers)?;
    let mut text = String::new();
    plan.draw(SVGBackend::with_string(&mut text, (WIDTH, plan.height())))?;
    std::fs::write(path, text).with_context(|| format!("cannot write {}", path.display()))
}

/// Writes a PNG file; its name ends in .png.
///
/// # Errors
/// There are no gears, the name ends otherwise, or the file cannot be written.
pub fn png(answers: &[pb::GearingAnswer], path: &Path) -> anyhow::Result<()> {
    let name = path.display();
    if !path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("png")) {
        return Err(anyhow!("{name} does not end in .png"));
    }
    let plan = Plan::new(answers)?;
    plan.draw(BitMapBackend::new(path, (WIDTH, plan.height())))
        .with_context(|| format!("cannot write {name}"))
}

/// A line of the picture: the gears of one build on one ring.
struct Row {
    label: String,
    gears: Vec<(f64, String, bool)>,
}

/// A build with its rows, largest ring first.
struct Block {
    name: String,
    rows: Vec<Row>,
}

struct Plan {
    blocks: Vec<Block>,
    low: f64,
    high: f64,
}

impl Plan {
    fn new(answers: &[pb::GearingAnswer]) -> anyhow::Result<Self> {
        let ratios = answers.iter().flat_map(|answer| &answer.gears).map(|gear| gear.ratio);
        let ends = ratios.fold(None, |ends: Option<(f64, f64)>, ratio| {
            Some(ends.map_or((ratio, ratio), |(low, high)| (low.min(ratio), high.max(ratio))))
        });
        let (low, high) = ends.filter(|(low, _)| *low > 0.0).context("there are no gears to draw")?;
        // A single gear stands in the middle.
        let (low, high) = if low < high { (low, high) } else { (low / 1.1, high * 1.1) };
        Ok(Self { blocks: answers.iter().map(block).collect(), low, high })
    }

    fn height(&self) -> u32 {
        let rows: usize = self.blocks.iter().map(|block| block.rows.len()).sum();
        let (blocks, rows) = (self.blocks.len().min(32) as i32, rows.min(1000) as i32);
        // Positive, and far below the largest number there is.
        (TOP + blocks * HEADING + rows * ROW + BOTTOM).unsigned_abs()
    }

    fn x(&self, ratio: f64) -> i32 {
        let share = (ratio / self.low).ln() / (self.high / self.low).ln();
        LEFT + (share * f64::from(WIDTH as i32 - LEFT - RIGHT)).round() as i32
    }

    fn draw<B: DrawingBackend>(&self, backend: B) -> anyhow::Result<()> {
        // The font comes with the program, so that text has the same size on every machine.
        register_font(FONT, FontStyle::Normal, dejavu::sans::regular())
            .map_err(|_| anyhow!("the font cannot be read"))?;
        let area = backend.into_drawing_area();
        self.draw_on(&area).and_then(|()| area.present()).map_err(|error| anyhow!("{error}"))
    }

    fn draw_on<B: DrawingBackend>(&self, area: &Area<B>) -> Drawn<B> {
        area.fill(&WHITE)?;
        text(area, "Gears by ratio, logarithmic: lower gears to the left", (20, 18), TITLE, HPos::Left)?;
        let foot = self.height() as i32 - BOTTOM;
        self.scale(area, foot)?;
        let mut y = TOP;
        for (index, block) in self.blocks.iter().enumerate() {
            let look = Look {
                colour: COLOURS[index % COLOURS.len()],
                corners: SHAPES[index % SHAPES.len()],
                hollow: false,
            };
            look.draw(area, (28, y + HEADING / 2))?;
            text(area, &block.name, (44, y + HEADING / 2), TITLE, HPos::Left)?;
            y += HEADING;
            for row in &block.rows {
                self.row(area, row, look, y + ROW / 2)?;
                y += ROW;
            }
        }
        let key = "filled: straight enough    hollow: crossed    numbers: teeth of the cog";
        text(area, key, (20, foot + 46), TEXT, HPos::Left)
    }

    fn scale<B: DrawingBackend>(&self, area: &Area<B>, foot: i32) -> Drawn<B> {
        let mut free = i32::MIN;
        for tick in TICKS.iter().copied().filter(|tick| (self.low..=self.high).contains(tick)) {
            let x = self.x(tick);
            area.draw(&PathElement::new(vec![(x, TOP), (x, foot)], PALE.stroke_width(1)))?;
            if x >= free {
                text(area, &format!("{tick}"), (x, foot + 14), TEXT, HPos::Center)?;
                free = x + 34;
            }
        }
        Ok(())
    }

    fn row<B: DrawingBackend>(&self, area: &Area<B>, row: &Row, look: Look, y: i32) -> Drawn<B> {
        let line = vec![(LEFT - 12, y), (WIDTH as i32 - RIGHT + 12, y)];
        area.draw(&PathElement::new(line, GREY.stroke_width(1)))?;
        text(area, &row.label, (LEFT - 20, y), TEXT, HPos::Right)?;
        // Where the next label fits above and below the line; a label with no room is left out.
        let mut free = [i32::MIN; 2];
        for (ratio, label, crossed) in &row.gears {
            let x = self.x(*ratio);
            Look { hollow: *crossed, ..look }.draw(area, (x, y))?;
            let half = 5 * i32::try_from(label.chars().count()).unwrap_or(0);
            let lanes = free.iter_mut().zip([y - 17, y + 18]);
            if let Some((free, at)) = lanes.into_iter().find(|(free, _)| **free <= x - half) {
                *free = x + half;
                text(area, label, (x, at), TEXT, HPos::Center)?;
            }
        }
        Ok(())
    }
}

fn block(answer: &pb::GearingAnswer) -> Block {
    let internal = |gear: &pb::Gear| {
        let crank = gear.crank_ratio.map(|ratio| (ratio.numerator, ratio.denominator));
        (gear.ring, crank)
    };
    let mut keys: Vec<_> = answer.gears.iter().map(internal).collect();
    keys.sort_unstable_by(|a, b| b.cmp(a));
    keys.dedup();
    let rows = keys.into_iter().map(|key| {
        let gears = answer.gears.iter().filter(|gear| internal(gear) == key);
        let label = match key {
            (ring, Some((numerator, denominator))) => {
                format!("{ring} T {:.2}", numerator as f64 / denominator as f64)
            }
            (ring, None) => format!("{ring} T"),
        };
        Row { label, gears: gears.map(|gear| (gear.ratio, label_of(gear), gear.crossed)).collect() }
    });
    let name = if answer.build_id.is_empty() { "this build" } else { &answer.build_id };
    Block { name: name.chars().take(100).collect(), rows: rows.collect() }
}

/// Teeth of the cog; with a gear hub its ratio too.
fn label_of(gear: &pb::Gear) -> String {
    match &gear.hub_ratio {
        Some(hub) => format!("{} ({:.2})", gear.cog, hub.numerator as f64 / hub.denominator as f64),
        None => gear.cog.to_string(),
    }
}

/// How the gears of a build look.
#[derive(Clone, Copy)]
struct Look {
    colour: RGBColor,
    corners: &'static [(i32, i32)],
    hollow: bool,
}

impl Look {
    fn draw<B: DrawingBackend>(self, area: &Area<B>, (x, y): (i32, i32)) -> Drawn<B> {
        let fill = if self.hollow { WHITE } else { self.colour };
        let edge = self.colour.stroke_width(2);
        if self.corners.is_empty() {
            area.draw(&Circle::new((x, y), MARK, fill.filled()))?;
            return area.draw(&Circle::new((x, y), MARK, edge));
        }
        let place = |&(dx, dy): &(i32, i32)| (x + dx * MARK / 100, y + dy * MARK / 100);
        let mut corners: Vec<(i32, i32)> = self.corners.iter().map(place).collect();
        area.draw(&Polygon::new(corners.clone(), fill.filled()))?;
        corners.extend(corners.first().copied());
        area.draw(&PathElement::new(corners, edge))
    }
}

type Area<B> = DrawingArea<B, Shift>;
type Drawn<B> = Result<(), DrawingAreaErrorKind<<B as DrawingBackend>::ErrorType>>;

fn text<B: DrawingBackend>(area: &Area<B>, text: &str, at: (i32, i32), size: f64, side: HPos) -> Drawn<B> {
    let style = TextStyle::from((FONT, size).into_font()).pos(Pos::new(side, VPos::Center));
    area.draw(&Text::new(text, at, style))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn build(ring: i32) -> pb::GearingAnswer {
        let gear =
            |cog: i32| pb::Gear { ring, cog, ratio: f64::from(ring) / f64::from(cog), ..pb::Gear::default() };
        let gears = [32, 28, 24, 21].map(gear).into();
        pb::GearingAnswer { build_id: format!("<{ring}>"), gears, ..pb::GearingAnswer::default() }
    }

    #[test]
    fn a_picture_names_builds_rings_and_cogs() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("gears.svg");
        svg(&[build(34), build(46)], &path).expect("a picture");
        let text = std::fs::read_to_string(&path).expect("a file");
        for word in ["&lt;34&gt;", "46 T", "\n28\n"] {
            assert!(text.contains(word), "{word} is missing");
        }
        assert!(svg(&[], &path).is_err(), "no gears, no picture");
    }

    #[test]
    fn a_png_is_a_png() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("gears.png");
        png(&[build(34)], &path).expect("a picture");
        assert!(std::fs::read(&path).expect("a file").starts_with(b"\x89PNG"));
        assert!(png(&[build(34)], &folder.path().join("gears.jpg")).is_err());
        assert!(png(&[build(34)], &folder.path().join("none/gears.png")).is_err());
    }
}
