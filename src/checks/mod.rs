//! The rules. One rule, one file; this file holds the list and the loop.
use crate::ledger::hazards::{self, Demand};
use crate::ledger::{self, Ledger};
use crate::model::settings::{Level, Settings};
use crate::model::tightening::{self, Tightening};
use crate::model::{Document, Procedure, Register, Slip, Step};
use crate::report::{Finding, Severity};
use crate::source::{FileId, SourceFile, Span};
use contents::Contents;
use std::cell::OnceCell;

mod contents;
mod every_action;
mod finders;
mod example;
mod extents;
mod part_objects;
mod holes;
mod judged;
mod obligations;
mod once;
mod passages;
mod prose_words;
mod sieve;
mod suggestion;
mod waivers;
mod wrenches;
mod patterns;
mod passes;

mod action_inside_message;
mod adapter_without_lever;
mod air_above_limit;
mod align_direction_missing;
mod align_past_maximum;
mod branch_ends_open;
mod broken_order;
mod callout_clash;
mod caution_after_step;
mod caution_guards_nothing;
mod caution_out_of_order;
mod class_unknown;
mod condition_unstated;
mod cure_not_waited;
mod dangling_reference;
mod discarded_not_ordered;
mod drag_torque_forgotten;
mod duplicate_name;
mod duplicate_procedure;
mod empty_range;
mod energy_not_isolated;
mod finding_without_outcome;
mod fitted_over;
mod fitted_while_fitted;
mod forbidden_substitute;
mod grade_raised_torque_kept;
mod in_the_way;
mod incomplete_caution;
mod layout_does_not_fit;
mod left_disconnected;
mod left_drained;
mod left_in;
mod left_isolated;
mod left_loose;
mod left_off;
mod left_open;
mod left_raised;
mod limit_in_note;
mod limit_without_action;
mod lock_before_torque;
mod locker_on_oiled_thread;
mod lockout_out_of_order;
mod long_instruction;
mod loop_without_limit;
mod malformed_attribute;
mod mark_never_used;
mod measured_while_fitted;
mod misplaced_detail;
mod misplaced_statement;
mod missing_caution;
mod missing_header_field;
mod missing_protection;
mod missing_role;
mod missing_unit;
mod misspelt_outcome;
mod never_tightened;
mod no_wrench_fits;
mod not_discarded;
mod not_tested;
mod over_warned;
mod pass_above_final;
mod passes_fall_short;
mod passes_not_rising;
mod pattern_needs_layout;
mod people_never_needed;
mod people_not_announced;
mod placeholder_left;
mod refused_markup;
mod removed_twice;
mod renewed_without_its_set;
mod repeat_out_of_order;
mod replace_is_ambiguous;
mod required_never_restored;
mod reused_single_use;
mod reused_unchecked;
mod same_signer;
mod side_not_stated;
mod step_in_prose;
mod still_held;
mod surface_not_clean;
mod surface_not_dry;
mod tightened_without_wrench;
mod torque_never_stated;
mod torque_to_yield_reused;
mod torque_too_low_to_hold;
mod torque_would_yield;
mod unaligned_fit;
mod undeclared_name;
mod unidentified_look_alike;
mod unit_slip;
mod units_disagree;
mod unknown_attribute;
mod unknown_detail;
mod unknown_hazard;
mod unknown_model;
mod unknown_procedure;
mod unknown_strength;
mod unknown_thread;
mod unknown_unit;
mod unknown_verb;
mod unknown_wear;
mod unmarked_removal;
mod unreadable_line;
mod unreadable_number;
mod unusable_catalogue;
mod unused_declaration;
mod unused_role;
mod unverified_before_commit;
mod vague_word;
mod waiver_not_needed;
mod waiver_without_reason;
mod worked_on_while_off;
mod wrench_out_of_range;
mod wrench_too_large;
mod wrong_dimension;
mod wrong_model_part;

pub use example::{example, example_register};

/// One rule as plain data and one function.
pub struct Rule {
    /// The file's name with hyphens; names the fault.
    pub id: &'static str,
    pub severity: Severity,
    /// Whether a written reason may hide it and a house may turn it down. Never where it is unknown what the
    /// author meant: the sheet would have a hole there.
    pub waivable: bool,
    /// One line: what is wrong, in the present tense.
    pub summary: &'static str,
    /// CommonMark: what it costs in the workshop, what the rule looks at, how to mend it.
    pub explain: &'static str,
    /// A file that gives exactly one finding, this rule's; [`example`] adds the header it leaves out.
    pub bad: &'static str,
    /// A file that gives none from any rule.
    pub good: &'static str,
    pub check: fn(&Subject<'_>, &mut Vec<Finding>),
}

/// What a rule looks at.
pub struct Subject<'a> {
    pub document: &'a Document,
    /// Findings of the syntax: lines that are not in the document.
    pub unread: &'a [Finding],
    pub settings: &'a Settings,
    pub register: &'a Register,
    pub source: &'a SourceFile,
    contents: Contents<'a>,
    ledger: Ledger,
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
        // A line that was not read may have settled anything.
        let lost = !unread.is_empty() || document.slips.iter().any(is_lost);
        let ledger = if lost { Ledger::default() } else { ledger::keep(document) };
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

    /// What the steps tighten, as far as it could be made sense of; worked out when the first rule asks.
    fn tightenings(&self) -> &[Tightening<'a>] {
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
    fn judged(&self) -> &[judged::Judged<'a>] {
        self.judged.get_or_init(|| judged::of(self))
    }

    /// The steps that need a torque wrench, with all they need it for.
    fn measured(&self) -> &[wrenches::OfOneStep<'a>] {
        self.measured.get_or_init(|| wrenches::steps(self))
    }

    /// The hazards that the steps bring, worked out when the first rule asks.
    fn demands(&self) -> &[Demand<'a>] {
        self.demands.get_or_init(|| hazards::demands(self.document, self.settings))
    }

    pub fn procedure(&self) -> Option<&Procedure> {
        self.document.procedure()
    }

    /// Whether something in `span` could not be resolved: what is missing there has its finding.
    pub fn unclear(&self, span: Span) -> bool {
        self.slips_in(span).any(is_hole)
    }

    /// Whether something of the step could not be read or resolved: what it lacks may stand there.
    fn is_unclear_step(&self, step: &Step) -> bool {
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
    fn is_torn(&self, tightening: &Tightening<'_>) -> bool {
        let torque = &tightening.torque;
        let list = torque.passes.last().map_or(torque.span, |last| torque.span.to(last.span));
        self.unclear(list) || tightening.fastener.is_some_and(|it| self.unclear(it.part.thing.span))
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
fn is_lost(slip: &Slip) -> bool {
    matches!(slip, Slip::UnknownVerb { .. })
}

/// Whether something is missing in the document for it.
fn is_hole(slip: &Slip) -> bool {
    !matches!(slip, Slip::UnitsDisagree { .. } | Slip::UnknownProcedure { .. } | Slip::RefusedMarkup { .. })
}

/// Every rule, by name.
pub static RULES: &[&Rule] = &[
    &action_inside_message::RULE,
    &adapter_without_lever::RULE,
    &air_above_limit::RULE,
    &align_direction_missing::RULE,
    &align_past_maximum::RULE,
    &branch_ends_open::RULE,
    &broken_order::RULE,
    &callout_clash::RULE,
    &caution_after_step::RULE,
    &caution_guards_nothing::RULE,
    &caution_out_of_order::RULE,
    &class_unknown::RULE,
    &condition_unstated::RULE,
    &cure_not_waited::RULE,
    &dangling_reference::RULE,
    &discarded_not_ordered::RULE,
    &drag_torque_forgotten::RULE,
    &duplicate_name::RULE,
    &duplicate_procedure::RULE,
    &empty_range::RULE,
    &energy_not_isolated::RULE,
    &finding_without_outcome::RULE,
    &fitted_over::RULE,
    &fitted_while_fitted::RULE,
    &forbidden_substitute::RULE,
    &grade_raised_torque_kept::RULE,
    &in_the_way::RULE,
    &incomplete_caution::RULE,
    &layout_does_not_fit::RULE,
    &left_disconnected::RULE,
    &left_drained::RULE,
    &left_in::RULE,
    &left_isolated::RULE,
    &left_loose::RULE,
    &left_off::RULE,
    &left_open::RULE,
    &left_raised::RULE,
    &limit_in_note::RULE,
    &limit_without_action::RULE,
    &lock_before_torque::RULE,
    &locker_on_oiled_thread::RULE,
    &lockout_out_of_order::RULE,
    &long_instruction::RULE,
    &loop_without_limit::RULE,
    &malformed_attribute::RULE,
    &mark_never_used::RULE,
    &measured_while_fitted::RULE,
    &misplaced_detail::RULE,
    &misplaced_statement::RULE,
    &missing_caution::RULE,
    &missing_header_field::RULE,
    &missing_protection::RULE,
    &missing_role::RULE,
    &missing_unit::RULE,
    &misspelt_outcome::RULE,
    &never_tightened::RULE,
    &no_wrench_fits::RULE,
    &not_discarded::RULE,
    &not_tested::RULE,
    &over_warned::RULE,
    &pass_above_final::RULE,
    &passes_fall_short::RULE,
    &passes_not_rising::RULE,
    &pattern_needs_layout::RULE,
    &people_never_needed::RULE,
    &people_not_announced::RULE,
    &placeholder_left::RULE,
    &refused_markup::RULE,
    &removed_twice::RULE,
    &renewed_without_its_set::RULE,
    &repeat_out_of_order::RULE,
    &replace_is_ambiguous::RULE,
    &required_never_restored::RULE,
    &reused_single_use::RULE,
    &reused_unchecked::RULE,
    &same_signer::RULE,
    &side_not_stated::RULE,
    &step_in_prose::RULE,
    &still_held::RULE,
    &surface_not_clean::RULE,
    &surface_not_dry::RULE,
    &tightened_without_wrench::RULE,
    &torque_never_stated::RULE,
    &torque_to_yield_reused::RULE,
    &torque_too_low_to_hold::RULE,
    &torque_would_yield::RULE,
    &unaligned_fit::RULE,
    &undeclared_name::RULE,
    &unidentified_look_alike::RULE,
    &unit_slip::RULE,
    &units_disagree::RULE,
    &unknown_attribute::RULE,
    &unknown_detail::RULE,
    &unknown_hazard::RULE,
    &unknown_model::RULE,
    &unknown_procedure::RULE,
    &unknown_strength::RULE,
    &unknown_thread::RULE,
    &unknown_unit::RULE,
    &unknown_verb::RULE,
    &unknown_wear::RULE,
    &unmarked_removal::RULE,
    &unreadable_line::RULE,
    &unreadable_number::RULE,
    &unusable_catalogue::RULE,
    &unused_declaration::RULE,
    &unused_role::RULE,
    &unverified_before_commit::RULE,
    &vague_word::RULE,
    &waiver_not_needed::RULE,
    &waiver_without_reason::RULE,
    &worked_on_while_off::RULE,
    &wrench_out_of_range::RULE,
    &wrench_too_large::RULE,
    &wrong_dimension::RULE,
    &wrong_model_part::RULE,
];

/// The rule of that name.
pub fn find(id: &str) -> Option<&'static Rule> {
    RULES.iter().find(|rule| rule.id == id).copied()
}

/// Rule names nearest to `word`, best first, at most three.
pub fn near(word: &str) -> Vec<&'static str> {
    suggestion::nearest(word, RULES.iter().map(|rule| rule.id))
}

/// Runs every rule that is not off, applies house levels and waivers, and sorts by place.
///
/// Findings of the syntax are not among them: no waiver hides a line that could not be read.
pub fn run(subject: &Subject<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in RULES {
        let Some(severity) = rule.level(subject.settings) else { continue };
        let from = findings.len();
        (rule.check)(subject, &mut findings);
        // A rule may find a thing less sure than its severity; what the house says goes for all.
        let by_house = subject.settings.rules.contains_key(rule.id);
        for finding in findings.iter_mut().skip(from) {
            finding.severity = if by_house { severity } else { finding.severity.min(severity) };
        }
    }
    if !subject.document.slips.is_empty() {
        holes::hush(subject, &mut findings);
    }
    findings.sort_by_key(|f| (f.span.start, f.span.end, f.rule));
    if !subject.document.waivers.is_empty() {
        waivers::apply(subject, &mut findings);
        findings.sort_by_key(|f| (f.span.start, f.span.end, f.rule));
    }
    findings
}

impl Rule {
    /// The severity in force in this house; none where the rule is off.
    ///
    /// A rule that cannot be waived is never weaker than its own severity.
    pub fn level(&self, settings: &Settings) -> Option<Severity> {
        let house = settings.rules.get(self.id).map_or(Some(self.severity), |level| level.severity());
        if self.waivable { house } else { house.max(Some(self.severity)) }
    }
}

/// The first key of the house's `[rules]` that cannot be so, what is wrong with it, and what to do.
pub fn misconfigured(settings: &Settings) -> Option<(&str, String, String)> {
    settings.rules.iter().find_map(|(id, level)| {
        let (message, help) = misconfiguration(id, *level)?;
        Some((id.as_str(), message, help))
    })
}

fn misconfiguration(id: &str, level: Level) -> Option<(String, String)> {
    let Some(rule) = find(id) else {
        let help = near(id)
            .first()
            .map_or("`cotter explain` lists the rules".to_owned(), |near| format!("did you mean `{near}`?"));
        return Some((format!("there is no rule `{id}`"), help));
    };
    let weaker = !rule.waivable && level.severity() < Some(rule.severity);
    weaker.then(|| {
        let message = format!("`{id}` cannot be turned down: the sheets would have holes");
        (message, format!("take the line out; it is always {}", rule.severity.name()))
    })
}
