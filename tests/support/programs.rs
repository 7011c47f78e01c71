//! Whole programs made from a string of bytes: every kind of line, in any order and any layout. Where the bytes run
//! out the first choice is taken, which is the neat one, so that a shrunk program is a plain one.

/// Choices read off bytes, one each.
struct Choices<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Choices<'_> {
    fn next(&mut self) -> usize {
        let byte = self.bytes.get(self.at).copied().unwrap_or(0);
        self.at += 1;
        usize::from(byte)
    }
    fn one<'t>(&mut self, of: &[&'t str]) -> &'t str {
        of[self.next() % of.len()]
    }
    /// True once in so many times.
    fn rarely(&mut self, times: usize) -> bool {
        self.next() % times == times - 1
    }
    fn up_to(&mut self, most: usize) -> usize {
        self.next() % (most + 1)
    }
}

/// In the lines below `~` is one blank or more, `^` a comma with or without blanks.
const HEADS: &[&str] =
    &["procedure~FW-TST-001~\"A trial\"", "catalogue~\"Of a trial\"", "procedure~FW-TST-002"];
const FIELDS: &[&str] = &[
    "revision:~A, 2026-11-02",
    "equipment:~F40 transfer pump # not a comment",
    "models:~F40^F40S",
    "source:~manual \"F40  manual\"",
    "time:~90 min",
    "people:~1, and a helper for [lifted]",
    "requires:~FW-PMP-002~\"pump  isolated\"; FW-PMP-003",
    "requires:~none",
    "leaves:~\"pump isolated\"",
    "waive:~vague-word~\"the maker says so\"",
    "colour:~green",
    "outcome: Know\n~~~~~~~~how it\n~~~~~~~~is done.",
];
const BLOCKS: &[(&str, &[&str])] = &[
    (
        "parts",
        &[
            "cover~\"Bearing cover\"",
            "screws~\"Cover screw, M6 x 20\"~x4~thread M6^class 8.8^dry^torque 7 to 9 N.m crosswise^holds cover",
            "bolts~\"Rod bolt\"~x2~as~first-bolt^second-bolt~starts off^thread M8x1",
            "gasket~\"Gasket\"^single-use^number \"F40 # 7\"",
            "a-name-that-is-longer-than-all-the-others-here~\"And a text that is longer than most of the others\"~mass 1 kg",
            "bearing",
            "shaft~mass~31 kg^models F40^F40S^F40T^matched bearing^number \"F40-1120\"^looks-like cover by \"no port\"^callout 3 on fig-1",
            "nut~\"Nut, “so called”\"~torque 20 N.m (14.8 lbf.ft) then 90 deg in 50 % 100 %, order 1 3 2 4~oiled",
            "pin~\"Pin\"~thread~#10-24 UNC^hot~90~degC",
            "ring~\"Ring\"~reuse-if \"it is\n~~~~~~~~~~whole\"",
            "key~\"Key\"~\n~~~~~~~~~~mass 2 kg,\n~~~~~~~~~~sharp",
        ],
    ),
    (
        "tools",
        &[
            "wrench~\"Torque wrench S\"~range 2 to 12 N.m^length 350 mm",
            "press~\"Press\"~capacity 100 kN",
            "stands~\"Axle stand\"~x4~temporary",
        ],
    ),
    (
        "supplies",
        &["oil~\"Oil\"~lubricant", "glue~\"Glue\"~cure 24 h at 22 degC^hazards H225^H319^needs clean^dry"],
    ),
    (
        "torques",
        &[
            "passes~20 N.m in 50 % 100 %^crosswise",
            "steps\n~~~~~~~~stage: 20 N.m while turning cover\n~~~~~~~~stage:~back off 1/8 to 1/6 turn",
            "other~max 20 N.m\n~~~~~~~~waive: vague-word \"so\"",
        ],
    ),
    ("figures", &["fig-1~\"Drive end\"~picture \"figures/a.svg\"^alt \"A, b; and # c\""]),
];
const MESSAGES: &[&str] = &[
    "warning~ejection",
    "danger~crushing~for~section",
    "caution~burn~for~next~2~steps",
    "notice~damage~until~lifted",
    "note~\"The order matters.\"",
    "warning~fire~as~solvent-fire",
];
const MESSAGE_DETAILS: &[&str] = &[
    "hazard:~The ring is under tension # and more.",
    "harm:~Eye injury.",
    "avoid:~Hold a hand\n~~~~~~~~over it.",
    "wear:~eye protection^gloves",
    "first-aid:~Rinse.",
];
const STEPS: &[&str] = &[
    "remove~screws^cover~from~housing",
    "remove~screws~with~wrench;~discard~gasket",
    "install~new~gasket^cover~on~housing~facing~\"the open  side\"",
    "tighten~screws~to~20 N.m~with~wrench",
    "tighten~bolts~by~passes~except~stage~2~18 N.m~on~first-bolt",
    "measure~shaft~\"seat; diameter\"~30.002 to 30.015 mm~with~press~as~seat",
    "measure~shaft~\"play\"~max 0.5 mm (0.02 in)~as~play",
    "calculate~shims~=~seat - play * (2 + 1 mm)^0.15 to 1.00 mm",
    "turn~shaft~by~1 1/2 turn~until~it~stops",
    "turn~shaft~3 times^while~\"one looks on\"",
    "repeat~seat~to~play~for~rear-left^front-right",
    "wait~24~h",
    "hold~instructor~\"All is well.\"",
    "do~\"stone the # spot off\"~on~shaft~with~press",
    "lower~2 of stands^\n~~~~with~press",
    "clean~cover;\n~~~~dry~cover",
    "choose~\"How?\"~as~way",
    "check~\"make sure that “it” turns\"~as~lifted",
    "follow~FW-SAF-001~\"locked out\"",
    "tighten~nut~finger tight^align~slot~by~tightening",
    "apply~glue~to~screws^using~oil~at~20~degC",
    "pack~bearing~with~oil~",
];
const DETAILS: &[&str] = &[
    "because:~Dirt wears it # fast.",
    "if~below:~stop~\"Send it.\"",
    "if~cracked^worn~:~renew~bearing;~stop~\"No.\"",
    "otherwise:~report~supervisor~\"Worn\"",
    "only:~F40S^seat~ok",
    "record:~seat  diameter",
    "figure:~fig-1",
    "except~rear-left:~remove~cover",
    "option~\"By: hand\":~pack~bearing~using~oil",
    "stage:~20 N.m~while~turning~hub",
    "time:~5 min",
    "ask:~Why?",
    "answer:~So that\n~~~~~~~~\n~~~~~~~~it holds.",
    "people:~2",
    "note~\"late\"",
    "warning~burn",
    "if~not~ok:~clean~cover,\n~~~~~~~~shaft",
    "remark:~none",
];
const PROSE: &[&str] = &[
    "Lift it straight up, not aside.",
    "Leave [cover] where it is:\n~~~~\n~~~~- one,\n~~~~- two\n~~~~  more.",
    "Two.\n~~~~\n~~~~\n~~~~Paragraphs, with a # in it.",
    "Deep\n~~~~~~~~code of  two",
    "It says: nothing.",
];
const BROKEN: &[&str] =
    &["remove~\"open", "Take it off.", "tighten~screws~(20", "parts~of~it", "((", "section", "calculate~a ="];
const BROKEN_BELOW: &[&str] = &["if below: \"open", "time: soon  (", "stage: (", "only: ;"];

/// The program that the bytes stand for.
pub fn program(bytes: &[u8]) -> String {
    let mut choices = Choices { bytes, at: 0 };
    let mut program = Program { text: String::new(), unit: "    ", end: "\n", messy: false };
    program.messy = choices.rarely(2);
    program.unit = choices.one(&["    ", "  ", "\t", "      ", " "]);
    program.end = choices.one(&["\n", "\n", "\n", "\r\n"]);
    if program.messy && choices.rarely(8) {
        program.text.push('\u{feff}');
    }
    program.between(&mut choices);
    let head = choices.one(HEADS);
    program.line("", head, &mut choices);
    program.some(1, 4, FIELDS, &mut choices);
    for _ in 0..choices.up_to(7) {
        program.between(&mut choices);
        program.statement(&mut choices);
    }
    program.between(&mut choices);
    if program.messy && choices.rarely(4) {
        program.text.truncate(program.text.trim_end().len());
    }
    program.text
}

struct Program {
    text: String,
    unit: &'static str,
    end: &'static str,
    messy: bool,
}

impl Program {
    fn statement(&mut self, choices: &mut Choices<'_>) {
        match choices.next() % 8 {
            0..3 => {
                let step = choices.one(STEPS);
                self.line("", step, choices);
                self.body(choices);
            }
            3 => {
                let (keyword, declarations) = BLOCKS[choices.next() % BLOCKS.len()];
                if choices.rarely(5) {
                    return self.line("", &format!("{keyword}~none"), choices);
                }
                self.line("", keyword, choices);
                self.some(1, 6, declarations, choices);
            }
            4 => {
                let message = choices.one(MESSAGES);
                self.line("", message, choices);
                self.some(0, 4, MESSAGE_DETAILS, choices);
            }
            5 => {
                self.line("", "section~\"Take  down\"", choices);
                self.some(0, 1, &["time:~40 min", "colour: red"], choices);
            }
            6 => self.line("", "use~\"../shop/common.cotter\"", choices),
            _ => {
                let broken = choices.one(BROKEN);
                self.line("", broken, choices);
                self.body(choices);
            }
        }
    }

    fn body(&mut self, choices: &mut Choices<'_>) {
        for _ in 0..choices.up_to(3) {
            match choices.next() % 6 {
                0..3 => self.some(1, 2, DETAILS, choices),
                3 | 4 => self.some(1, 1, PROSE, choices),
                _ => self.some(1, 1, BROKEN_BELOW, choices),
            }
            if choices.rarely(4) {
                self.between(choices);
            }
        }
    }

    /// So many lines of those, indented.
    fn some(&mut self, least: usize, most: usize, of: &[&str], choices: &mut Choices<'_>) {
        for _ in 0..least + choices.up_to(most - least) {
            if choices.rarely(8) {
                let comment = choices.one(&["# a comment", "#   of\tblanks "]);
                let indent = choices.one(&[self.unit, "", "          "]);
                self.text.push_str(&format!("{indent}{comment}{}", self.end));
            }
            let line = choices.one(of);
            let odd = if self.messy && choices.rarely(8) { choices.one(&["  ", "\t"]) } else { "" };
            let indent = format!("{}{odd}", self.unit);
            self.line(&indent, line, choices);
        }
    }

    /// Blank lines and comments at the margin.
    fn between(&mut self, choices: &mut Choices<'_>) {
        let most = if self.messy { 3 } else { 1 };
        for _ in 0..choices.up_to(most) {
            let line = choices.one(&["", "", "# at the margin", "  \t"]);
            self.text.push_str(line);
            self.text.push_str(self.end);
        }
    }

    fn line(&mut self, indent: &str, line: &str, choices: &mut Choices<'_>) {
        for (at, part) in line.split('\n').enumerate() {
            // What goes on is as much further in as it says.
            let deeper = part.len() - part.trim_start_matches('~').len();
            let part = &part[deeper..];
            if at == 0 {
                self.text.push_str(indent);
            } else if !part.is_empty() {
                self.text.push_str(&self.unit.repeat(deeper / 4));
            }
            for letter in part.chars() {
                match letter {
                    '~' if self.messy => self.text.push_str(choices.one(&[" ", "  ", "\t", "    "])),
                    '~' => self.text.push(' '),
                    '^' if self.messy => self.text.push_str(choices.one(&[", ", ",", " ,  ", ",\t"])),
                    '^' => self.text.push_str(", "),
                    _ => self.text.push(letter),
                }
            }
            if choices.rarely(12) {
                self.text.push_str(choices.one(&["  # why", " # so", "\t#", "   ", "\t"]));
            }
            self.text.push_str(self.end);
        }
    }
}
