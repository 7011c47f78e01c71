//! What the rules look at, each part of it worked out once.
use super::contents::Contents;
use super::{judged, wrenches};
use crate::ledger::hazards::{self, Demand};
use crate::ledger::{self, Ledger};
use crate::model::declarations::{Callout, Figure, Illustration};
use crate::model::settings::Settings;
use crate::model::slip::{BARE_SUPPLY, BARE_TOOL};
use crate::model::tightening::{self, Tightening};
use crate::model::{Document, Procedure, Register, Slip, Step};
use crate::report::Finding;
use crate::source::{FileId, SourceFile, Span};
use std::cell::OnceCell;

/// What a rule looks at.
pub struct Subject<'a> {
    pub document: &'a Document,
    /// Findings of the syntax: lines that are not in the document.
    pub unread: &'a [Finding],
    pub settings: &'a Settings,
    pub register: &'a Register,
    pub source: &'a SourceFile,
    pub(super) contents: Contents<'a>,
    ledger: OnceCell<Ledger>,
    tightenings: OnceCell<Vec<Tightening<'a>>>,
    judged: OnceCell<Vec<judged::Judged<'a>>>,
    measured: OnceCell<Vec<wrenches::OfOneStep<'a>>>,
    demands: OnceCell<Vec<Demand<'a>>>,
}

impl<'a> Subject<'a> {
    /// `unread` are the findings of the syntax; `document` is of `source`.
    pub fn new(
        document: &'a Document,
        unread: &'a [Finding],
        settings: &'a Settings,
        register: &'a Register,
        source: &'a SourceFile,
    ) -> Subject<'a> {
        let contents = Contents::of(document);
        let (tightenings, judged) = (OnceCell::new(), OnceCell::new());
        let (measured, demands) = (OnceCell::new(), OnceCell::new());
        let ledger = OnceCell::new();
        Subject {
            document,
            unread,
            settings,
            register,
            source,
            contents,
            ledger,
            tightenings,
            judged,
            measured,
            demands,
        }
    }

    /// What the steps leave open or settle in the wrong order; worked out when the first rule asks.
    pub(super) fn ledger(&self) -> &Ledger {
        self.ledger.get_or_init(|| match self.has_lost_lines() {
            // A line that was not read may have settled anything.
            true => Ledger::default(),
            false => ledger::keep(self.document, self.register),
        })
    }

    /// What the steps tighten, as far as it could be made sense of; worked out when the first rule asks.
    pub(super) fn tightenings(&self) -> &[Tightening<'a>] {
        self.tightenings.get_or_init(|| {
            let works = self.contents.works.iter().copied();
            let mut all = tightening::of(works, &self.document.declarations);
            if !self.document.slips.is_empty() {
                all.retain(|it| !self.is_torn(it));
            }
            all
        })
    }

    /// The torques that threaded parts do not stand, or do not hold by.
    pub(super) fn judged(&self) -> &[judged::Judged<'a>] {
        self.judged.get_or_init(|| judged::of(self))
    }

    /// The steps that need a torque wrench, with all they need it for.
    pub(super) fn measured(&self) -> &[wrenches::OfOneStep<'a>] {
        self.measured.get_or_init(|| wrenches::steps(self))
    }

    /// The hazards that the steps bring, worked out when the first rule asks.
    pub(super) fn demands(&self) -> &[Demand<'a>] {
        self.demands.get_or_init(|| hazards::demands(self.document, self.settings))
    }

    pub fn procedure(&self) -> Option<&Procedure> {
        self.document.procedure()
    }

    /// Whether the house wants to know what is required before the work, and the header is silent: what the
    /// machine is like then has its finding.
    pub(super) fn is_silent_on_start(&self) -> bool {
        let wanted = self.settings.required_header.iter().any(|field| field == "requires");
        wanted && self.procedure().is_some_and(|procedure| !procedure.header.has("requires"))
    }

    /// Whether something in `span` could not be resolved: what is missing there has its finding.
    pub fn unclear(&self, span: Span) -> bool {
        self.slips_in(span).any(is_hole)
    }

    /// Whether something of the step could not be read or resolved: what it lacks may stand there.
    pub(super) fn is_unclear_step(&self, step: &Step) -> bool {
        // The line below counts too: an outcome that was not indented stands there.
        let within = |finding: &Finding| {
            let between = Span { start: step.extent.end.min(finding.span.start), ..finding.span };
            let text = self.source.slice(Span { end: finding.span.start, ..between });
            finding.span.start >= step.extent.start && !text.trim_start().contains('\n')
        };
        self.unclear(step.extent) || self.unread.iter().any(within)
    }

    /// Whether anything in the file could not be read or resolved. A rule about what is nowhere in the file has
    /// to wait until all of it is known.
    pub fn has_holes(&self) -> bool {
        !self.unread.is_empty() || self.document.slips.iter().any(is_hole)
    }

    /// Whether a line is not in the document at all, for its form or its first word: it may have declared anything.
    pub fn has_lost_lines(&self) -> bool {
        !self.unread.is_empty() || self.document.slips.iter().any(is_lost)
    }

    /// Whether part of the torque could not be made sense of: what is left of it says little.
    pub(super) fn is_torn(&self, tightening: &Tightening<'_>) -> bool {
        let torque = &tightening.torque;
        let list = torque.passes.last().map_or(torque.span, |last| torque.span.to(last.span));
        self.unclear(list) || tightening.fastener.is_some_and(|it| self.unclear(it.part.thing.span))
    }

    /// The figures of this file that have a picture, as far as they do.
    pub(super) fn illustrations(&self) -> impl Iterator<Item = (&'a Figure, &'a Illustration)> + use<'a> {
        let own = self.document.declarations.figures.iter().filter(|figure| !figure.thing.from_catalogue);
        own.filter_map(|figure| Some((figure, figure.illustration.as_ref()?)))
    }

    /// The numbers that parts have in a figure.
    pub(super) fn callouts(&self, figure: &Figure) -> impl Iterator<Item = &'a Callout> {
        self.document.declarations.callouts(figure).map(|(callout, _)| callout)
    }

    /// Whether the place is in the file that is looked at, not in a catalogue it uses.
    pub fn owns(&self, span: Span) -> bool {
        span.file == self.document.file
    }
    /// Whether the file is a catalogue with an error: what seems missing there may only be misspelt.
    pub fn is_faulty(&self, file: FileId) -> bool {
        self.document.slips.iter().any(|slip| match slip {
            Slip::UnusableCatalogue { fault: Some(fault), .. } => fault.span.file == file,
            _ => false,
        })
    }
    /// What could not be resolved in there: something that seems missing may only be misspelt.
    pub fn slips_in(&self, span: Span) -> impl Iterator<Item = &Slip> {
        let slips = &self.document.slips;
        let from = slips.partition_point(|slip| slip.span().start < span.start);
        let within = slips.iter().skip(from).take_while(move |slip| slip.span().start < span.end);
        within.filter(move |_| self.owns(span))
    }
}

/// Whether a whole action is missing in the document for it.
pub(super) fn is_lost(slip: &Slip) -> bool {
    matches!(slip, Slip::UnknownVerb { .. })
}

/// Whether something is missing in the document for it.
pub(super) fn is_hole(slip: &Slip) -> bool {
    !matches!(
        slip,
        Slip::UnitsDisagree { .. }
            | Slip::UnknownProcedure { .. }
            | Slip::RefusedMarkup { .. }
            | Slip::UnusedRole { given: BARE_TOOL | BARE_SUPPLY, .. }
    )
}
