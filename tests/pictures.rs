//! Pictures of figures: what is let through of a drawing, what is refused, how large a photograph is, and that a page
//! shows each once, in itself.
use crate::support::workspace::Workspace;
use cotter::model::picture::{Fault, Kind, Picture};

const HEAD: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 20 10">"#;

fn read(bytes: &[u8]) -> Result<Picture, Fault> {
    Picture::read(bytes, 500_000)
}

fn svg(body: &str) -> Result<Picture, Fault> {
    read(format!("{HEAD}{body}</svg>").as_bytes())
}

fn text(picture: &Picture) -> String {
    String::from_utf8(picture.bytes.clone()).unwrap()
}

/// Ways in which an SVG runs, loads or hides something: SVG 2, chapter 5 and 16; XML 1.0, 4.2; OWASP's list of XXE.
#[test]
fn nothing_that_runs_loads_or_hides_gets_through() {
    for body in [
        "<script>x()</script>",
        "<g><script href=\"x.js\"/></g>",
        "<h:script xmlns:h=\"http://www.w3.org/1999/xhtml\">x()</h:script>",
        "<rect onload=\"x()\"/>",
        "<rect ONCLICK=\"x()\"/>",
        "<g><circle r=\"1\" onmouseover=\"x()\"/></g>",
        "<a href=\"javascript:x()\"><text>go</text></a>",
        "<text><a xlink:href=\" java\nscript:x()\">go</a></text>",
        "<image href=\"http://example.org/a.png\" width=\"9\" height=\"9\"/>",
        "<image xlink:href=\"data:image/svg+xml;base64,AA\"/>",
        "<use href=\"other.svg#a\"/>",
        "<use xlink:href=\"#a\"/>",
        "<foreignObject><p xmlns=\"http://www.w3.org/1999/xhtml\">x</p></foreignObject>",
        "<style>@import url(http://example.org/a.css);</style>",
        "<rect style=\"fill:url(http://example.org/a.svg#b)\"/>",
        "<rect fill=\"url( 'http://example.org/a.svg#b' )\"/>",
        "<rect style=\"@import 'a.css'\"/>",
        "<animate attributeName=\"href\" to=\"javascript:x()\"/>",
        "<set attributeName=\"onload\" to=\"x()\"/>",
        "<iframe/>",
        "<svg onload=\"x()\"/>",
        "<defs><linearGradient id=\"a\"/></defs>",
        "<filter id=\"a\"/>",
        "<handler type=\"text/javascript\">x()</handler>",
    ] {
        assert!(matches!(svg(body), Err(Fault::Unusable(_))), "{body}");
    }
}

#[test]
fn entities_are_refused_before_they_grow_or_read_a_file() {
    let rest = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><text>&a;</text></svg>";
    let bomb: String = (b'b'..=b'k')
        .map(|it| {
            format!("<!ENTITY {} \"{}\">", char::from(it), format!("&{};", char::from(it - 1)).repeat(10))
        })
        .collect();
    for head in [
        "<!DOCTYPE svg [<!ENTITY a SYSTEM \"file:///etc/passwd\">]>".to_owned(),
        "<!DOCTYPE svg SYSTEM \"http://example.org/a.dtd\">".to_owned(),
        "<!DOCTYPE svg [<!ENTITY % p SYSTEM \"http://example.org/a\"> %p;]>".to_owned(),
        format!("<!DOCTYPE svg [<!ENTITY a \"ha\">{bomb}]>"),
    ] {
        assert!(matches!(read(format!("{head}{rest}").as_bytes()), Err(Fault::Unusable(_))), "{head}");
    }
    assert!(read(rest.as_bytes()).is_err(), "an entity that nobody declared");
}

#[test]
fn what_is_too_much_is_refused() {
    let ten = 10_000_000;
    let large = format!("{HEAD}<desc>{}</desc></svg>", "a".repeat(ten));
    assert!(matches!(read(large.as_bytes()), Err(Fault::TooLarge { bytes }) if bytes > ten as u64));
    assert!(svg(&format!("{}{}", "<g>".repeat(30), "</g>".repeat(30))).is_ok());
    for deep in [40, 60_000] {
        let body = format!("{}{}", "<g>".repeat(deep), "</g>".repeat(deep));
        assert!(matches!(svg(&body), Err(Fault::Unusable(_))), "{deep} deep");
    }
    assert!(matches!(svg(&"<g/>".repeat(60_000)), Err(Fault::Unusable(_))));
}

#[test]
fn what_is_drawn_stays_and_what_a_program_keeps_for_itself_goes() {
    let body = "<?a b?><!--c--><metadata><x/></metadata><defs id=\"d\"/><k:view xmlns:k=\"urn:k\" k:zoom=\"2\"/>\
                <g id=\"a\" class=\"b\" transform=\"translate(1 2)\" style=\"fill:#f00;stroke : none;-x-y:1\" fill=\"blue\">\
                <path d=\"M0 0L9 9\"/><text x=\"1\" y=\"2\">4 &lt; 5</text></g><text> 12 </text><text>3 mm</text>";
    let picture = svg(body).unwrap();
    assert_eq!(
        text(&picture),
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 20 10\" width=\"20\" height=\"10\">\
         <g transform=\"translate(1 2)\" fill=\"#f00\" stroke=\"none\"><path d=\"M0 0L9 9\"></path>\
         <text x=\"1\" y=\"2\">4 &lt; 5</text></g><text> 12 </text><text>3 mm</text></svg>"
    );
    assert_eq!((picture.kind, picture.numbers.as_slice()), (Kind::Svg, [12].as_slice()));
    // What was let through is let through again, as it is.
    assert_eq!(read(&picture.bytes).unwrap(), picture);
}

#[test]
fn a_drawing_has_a_size() {
    let of = |attributes: &str| {
        read(format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {attributes}/>").as_bytes())
    };
    let size = |attributes: &str| of(attributes).map(|it| (it.width, it.height)).ok();
    // CSS Values 3, 6.2: 1 in = 96 px = 25.4 mm.
    assert_eq!(size("width=\"25.4mm\" height=\"2in\""), Some((96, 192)));
    assert_eq!(size("viewBox=\"0,0 40 30\" width=\"100%\""), Some((40, 30)));
    for none in [
        "",
        "width=\"9\"",
        "viewBox=\"0 0 9\"",
        "viewBox=\"0 0 0 9\"",
        "viewBox=\"0 0 NaN 9\"",
        "viewBox=\"0 0 99999 9\"",
    ] {
        assert_eq!(size(none), None, "{none}");
    }
}

/// Chunks as in PNG, third edition, 5.3; their checksums are not looked at.
fn png(width: u32, height: u32) -> Vec<u8> {
    let mut bytes = b"\x89PNG\r\n\x1a\n".to_vec();
    let header = [&width.to_be_bytes()[..], &height.to_be_bytes()[..], &[8, 2, 0, 0, 0]].concat();
    for (name, data) in [(b"IHDR", header), (b"IDAT", vec![1, 2, 3]), (b"IEND", Vec::new())] {
        bytes.extend(u32::try_from(data.len()).unwrap().to_be_bytes());
        bytes.extend([&name[..], &data, &[0; 4]].concat());
    }
    bytes
}

/// Segments as in ITU-T T.81, B.1 and B.2.
fn jpeg() -> Vec<u8> {
    let mut bytes = vec![0xff, 0xd8, 0xff, 0xe0, 0, 4, 1, 2];
    bytes.extend([0xff, 0xc4, 0, 3, 0]);
    bytes.extend([0xff, 0xff, 0xc2, 0, 11, 8, 1, 0x2c, 2, 0x58, 1, 1, 0x11, 0]);
    bytes.extend([0xff, 0xda, 0, 2, 7, 7, 7, 0xff, 0xd9]);
    bytes
}

#[test]
fn nothing_goes_along_that_a_camera_tells_besides_the_picture() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/pictures/turned.jpg");
    let bytes = std::fs::read(path).unwrap();
    let picture = read(&bytes).unwrap();
    let holds = |bytes: &[u8], words: &[u8]| bytes.windows(words.len()).any(|window| window == words);
    for told in [&b"Fenmoor"[..], b"a word of the camera"] {
        assert!(holds(&bytes, told) && !holds(&picture.bytes, told));
    }
    // How it is to be held is kept: the file lies on its side.
    assert_eq!((picture.width, picture.height), (64, 40));
    assert_eq!(cotter::model::picture::turn(&picture.bytes), 6);
    assert!(picture.bytes.len() < bytes.len());
    let again = read(&picture.bytes).unwrap();
    assert_eq!(again, picture);

    // A list of further pictures, a thermal picture, and those pictures behind the end mark (CIPA DC-007, 5.2).
    let mut more = jpeg();
    more.splice(2..2, [&[0xff, 0xe2, 0, 8][..], b"MPF\0**", &[0xff, 0xe4, 0, 6], b"warm"].concat());
    let end = more.len() - 2;
    more.splice(end..end, [&[0xff, 0xfe, 0, 6][..], b"note"].concat());
    more.extend(&bytes);
    assert_eq!(read(&more).unwrap(), read(&jpeg()).unwrap());
    let mut coloured = jpeg();
    coloured.splice(2..2, [&[0xff, 0xe2, 0, 16][..], b"ICC_PROFILE\0\x01\x01"].concat());
    assert!(holds(&read(&coloured).unwrap().bytes, b"ICC_PROFILE"));

    let mut told = png(640, 480);
    let chunk = [&[0, 0, 0, 3][..], b"tEXt", b"who", &[0; 4]].concat();
    told.splice(33..33, chunk);
    assert_eq!(read(&told).unwrap().bytes, png(640, 480));
}

#[test]
fn a_photograph_is_known_by_its_bytes_and_whole() {
    let size = |bytes: &[u8]| read(bytes).map(|it| (it.kind, it.width, it.height)).ok();
    assert_eq!(size(&png(640, 480)), Some((Kind::Png, 640, 480)));
    assert_eq!(size(&jpeg()), Some((Kind::Jpeg, 600, 300)));
    for whole in [png(640, 480), jpeg()] {
        for end in 0..whole.len() {
            assert_eq!(size(&whole[..end]), None, "cut at {end}");
        }
    }
    for other in [
        png(0, 5),
        png(20_000, 5),
        b"GIF89a\x01\0\x01\0\0\0\0;".to_vec(),
        b"%PDF-1.7".to_vec(),
        vec![0xff, 0xfe],
    ] {
        assert_eq!(size(&other), None);
    }
}

const PROCEDURE: &str = include_str!("checks/missing-picture/blameless.cotter");
const DRAWING: &str = include_str!("checks/missing-picture/figures/drive-end.svg");

#[test]
fn a_page_shows_each_picture_once_and_in_itself() {
    let twice = PROCEDURE.replace("clean cover, gasket\n", "clean cover, gasket\n    figure: fig-1\n");
    let workspace = Workspace::new().file("a.cotter", &twice).file("figures/drive-end.svg", DRAWING);
    let run = workspace.run(&["build"]);
    assert_eq!(run.code, 0, "{}{}", run.stdout, run.stderr);
    for page in ["bench", "checklist", "instructor"] {
        let page = workspace.read(&format!("out/FX-001/{page}.html"));
        assert_eq!(page.matches("<img ").count(), 1);
        assert!(page.contains("src=\"data:image/svg+xml;base64,"));
        assert!(page.contains("alt=\"The cover sits on the gasket\""));
        assert!(page.contains("<li><b>2</b> Cover gasket</li>"));
        assert!(page.contains("href=\"#figure-fig-1\""), "the other step leads to it");
    }
    let first = workspace.files("out");
    assert!(workspace.run(&["build"]).stdout.contains("0 pages changed"));
    assert_eq!(workspace.files("out"), first);
}

#[test]
#[cfg(unix)]
fn a_picture_is_an_ordinary_file_of_the_workspace() {
    let outside = Workspace::new().file("drive-end.svg", DRAWING);
    let workspace =
        Workspace::new().file("a.cotter", PROCEDURE).file("cotter.toml", "").file("figures/x", "");
    let place = workspace.path("figures/drive-end.svg");
    let told = |words: &str| {
        let run = workspace.run(&["check"]);
        assert!(run.code == 1 && run.stdout.contains(words), "{}{}", run.stdout, run.stderr);
    };
    std::os::unix::fs::symlink(outside.path("drive-end.svg"), &place).unwrap();
    told("it is a link that leads out of the workspace");
    std::fs::remove_file(&place).unwrap();
    std::os::unix::fs::symlink("/dev/zero", &place).unwrap();
    told("it is not an ordinary file");
    std::fs::remove_file(&place).unwrap();
    std::fs::create_dir(&place).unwrap();
    told("it is a folder");
    std::fs::remove_dir(&place).unwrap();
    told("there is no such file");
    workspace.write("figures/drive-end.svg", vec![b' '; 600_000]);
    told("has 600 kB, and the house allows 500");
    workspace.write("figures/drive-end.svg", DRAWING);
    assert_eq!(workspace.run(&["check"]).code, 0);
}
