//! The worked example, in pieces: renewing the gasket of a cover, and what makes a machine safe first. All values are
//! examples; the tightening torque is that of common tables for M6, class 8.8 (common practice, no source).

/// What can hurt somebody before the work has begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Danger {
    Live,
    Pressurised,
    Hot,
    Raised,
}

impl Danger {
    /// In the order in which a machine is made safe.
    pub const ALL: [Danger; 4] = [Danger::Live, Danger::Pressurised, Danger::Hot, Danger::Raised];

    /// As an author answers.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Danger::Live => "live",
            Danger::Pressurised => "pressurised",
            Danger::Hot => "hot",
            Danger::Raised => "raised",
        }
    }

    pub(super) fn example(self) -> &'static Example {
        match self {
            Danger::Live => &LIVE,
            Danger::Pressurised => &PRESSURISED,
            Danger::Hot => &HOT,
            Danger::Raised => &RAISED,
        }
    }
}

/// Lines of source: what is declared, what is done first, and what is done in the end.
pub(super) struct Example {
    pub parts: &'static str,
    pub tools: &'static str,
    pub supplies: &'static str,
    pub safe: &'static str,
    pub back: &'static str,
    /// The cover is hot at first.
    pub hot: bool,
}

/// Stands on the sheets until the author takes it out.
pub(super) const FIRST: &str = "\
# This note is on every sheet. Take it out when the steps are those of your machine.
note
    This is an example, not yet a procedure: nobody works from it. The maker's current service information, local
    codes and licensed practice go before it.
# A `check` says what must be so, and what follows where it is not. A name behind `as` is for other steps to refer to.
check \"make sure that nobody else works on the machine\" as alone
    if not ok: stop \"Agree first who does what.\"
";

pub(super) static COVER: Example = Example {
    parts: "    screws \"Cover screw, M6 x 20\" x4 thread M6, class 8.8, dry, torque 7 to 9 N.m crosswise, holds cover
    cover \"Cover\" sharp
    gasket \"Cover gasket\" single-use
    housing \"Housing\"
",
    tools: "    hex-keys \"Hexagon key set\"
    wrench-s \"Torque wrench S\" range 2 to 12 N.m
    scraper \"Plastic scraper\"
    straight-edge \"Straight-edge\"
    feelers \"Feeler gauge set\"
",
    supplies: "    cloths \"Lint-free cloth\"\n",
    safe: "
section \"Take down\"

# A message stands before the steps that it guards; `until` says how far it reaches.
caution cutting until cover-on
    hazard: The edges of the cover are sharp.
    harm: Cut fingers.
    avoid: Hold the cover by its flat faces.
    wear: cut gloves
loosen screws by 1/2 turn crosswise with hex-keys
remove screws, cover from housing
    people: ALL
    # A line without a key is for the reader: how to do it.
    Lift the cover straight off.
remove gasket from housing; discard gasket
clean cover, housing with scraper using cloths

section \"Measure\"

# A reading has its limits, its tool, and what follows from it.
measure cover \"gap under the straight-edge\" max 0.1 mm with straight-edge, feelers as flatness
    if above: stop \"The cover is bent. Order a new one.\"
    record: gap under the straight-edge

section \"Put together\"

# A single-use part goes back as `new`; without the word it is an error.
install new gasket, cover, screws on housing as cover-on
# Torque and pattern come from the declaration of the screws.
tighten screws with wrench-s
",
    back: "inspect cover \"leaks at its joint\" as joint-look
    if wet: stop \"Find out where it leaks.\"
",
    hot: false,
};

static LIVE: Example = Example {
    parts: "    main-switch \"Main switch\" live 400 V AC\n",
    tools: "    padlock \"Personal padlock\"
    danger-tag \"Lockout tag\"
    tester \"Voltage tester, two-pole\"
",
    supplies: "",
    safe: "# Off, locked, tagged, and proved dead with a tester that is tried before and after.
danger electric-shock until no-voltage
    hazard: The terminals can be live at 400 V AC until they are proved dead.
    harm: Death by electric shock.
    avoid: Treat every conductor as live until the proved tester shows none. Licensed electricians only.
    wear: insulating gloves, eye protection
turn off main-switch
lock out main-switch with padlock; tag main-switch with danger-tag
test tester \"on a known live socket\" as tester-first
    if not ok: stop \"Take another tester.\"
measure main-switch \"voltage between each pair of outgoing terminals, and from each to earth\" max 1 V AC,
    with tester as no-voltage
    if above: stop \"Call the licensed electrician.\"
test tester \"on the same live socket once more\" as tester-again
    if not ok: repeat from tester-first, at most 2 times
",
    back: "warning unexpected-start for next 2 steps
    hazard: The machine can start as soon as the lock is off.
    harm: Crushed hands.
    avoid: Keep everybody outside the marked area.
    wear: eye protection, safety footwear
unlock main-switch
    The padlock is taken off by the person who hung it there, and the tag with it.
turn on main-switch
",
    hot: false,
};

static PRESSURISED: Example = Example {
    parts: "    line \"Pressure line\" pressurised 8 bar
    shut-off \"Shut-off valve\"
    vent-valve \"Vent valve\"
",
    tools: "    pressure-gauge \"Pressure gauge\"\n",
    supplies: "",
    safe: "# Shut off, let off, and read: a gauge shows that nothing is left.
warning high-pressure until no-pressure
    hazard: What is under pressure bursts out where it is opened.
    harm: Loss of sight, injection under the skin.
    avoid: Stand to the side and open the valve slowly.
    wear: face shield, gloves
close shut-off
open vent-valve until \"nothing comes out any more\"
measure line \"pressure\" max 0 bar with pressure-gauge as no-pressure
    if above: stop \"Find out what holds the pressure.\"
",
    back: "close vent-valve
warning high-pressure
    hazard: A joint that is not tight lets go under pressure.
    harm: Loss of sight, injection under the skin.
    avoid: Stand to the side and open the valve slowly.
    wear: face shield, gloves
open shut-off
inspect line \"leaks at every joint\" as line-look
    if leaking: close shut-off; stop \"Let the pressure off again and mend the joint.\"
",
    hot: false,
};

static HOT: Example = Example {
    parts: "",
    tools: "    thermometer \"Contact thermometer\"\n",
    supplies: "",
    safe: "# A part that is measured cold needs no message.
measure cover \"temperature\" max 45 degC with thermometer as cool-enough
    if above: wait 20 min; repeat from cool-enough, at most 3 times
",
    back: "",
    hot: true,
};

static RAISED: Example = Example {
    parts: "    machine \"Machine\" mass 200 kg\n",
    tools: "    jack \"Jack\" capacity 20 kN
    stands \"Stand\" x2 capacity 20 kN, temporary
",
    supplies: "",
    safe: "danger falling-load until on-stands
    hazard: A machine that only a jack holds up can come down.
    harm: Death by crushing.
    avoid: Keep every part of the body out from under it until it rests on its stands.
    wear: safety footwear
raise machine with jack
put stands under machine as on-stands
",
    back: "danger falling-load for next 3 steps
    hazard: A machine that only a jack holds up can come down.
    harm: Death by crushing.
    avoid: Keep every part of the body out from under it, and take hold of the stands from the side.
    wear: safety footwear
do \"take the weight of the machine off the stands\" on machine with jack
remove stands from machine
lower machine with jack
",
    hot: false,
};
