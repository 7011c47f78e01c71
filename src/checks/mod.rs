//! The rules. One rule, one file; this file holds the list and the loop.
use crate::report::{Finding, Severity};

mod bolt_length;
mod contents;
mod finders;
mod example;
mod extents;
mod part_objects;
mod holes;
mod house;
mod judged;
mod obligations;
mod once;
mod passages;
mod prose_words;
mod route;
mod subject;
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
mod callout_not_drawn;
mod callout_without_part;
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
mod follows_itself;
mod forbidden_substitute;
mod grade_raised_torque_kept;
mod impossible_date;
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
mod left_unsaid;
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
mod measured_with_a_part;
mod misplaced_detail;
mod misplaced_statement;
mod missing_caution;
mod missing_header_field;
mod missing_picture;
mod missing_protection;
mod missing_role;
mod missing_unit;
mod misspelt_outcome;
mod more_than_there_are;
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
mod picture_too_large;
mod picture_without_words;
mod pieces_miscounted;
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
mod support_under_load;
mod stretch_too_large;
mod surface_not_clean;
mod surface_not_dry;
mod tightened_without_wrench;
mod torque_contradicted;
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
mod unknown_hazard_code;
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
mod unusable_picture;
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

pub use example::{example, example_catalogues, example_register};
pub use house::misconfigured;
pub use subject::Subject;

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
    &callout_not_drawn::RULE,
    &callout_without_part::RULE,
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
    &follows_itself::RULE,
    &forbidden_substitute::RULE,
    &grade_raised_torque_kept::RULE,
    &impossible_date::RULE,
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
    &left_unsaid::RULE,
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
    &measured_with_a_part::RULE,
    &misplaced_detail::RULE,
    &misplaced_statement::RULE,
    &missing_caution::RULE,
    &missing_header_field::RULE,
    &missing_picture::RULE,
    &missing_protection::RULE,
    &missing_role::RULE,
    &missing_unit::RULE,
    &misspelt_outcome::RULE,
    &more_than_there_are::RULE,
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
    &picture_too_large::RULE,
    &picture_without_words::RULE,
    &pieces_miscounted::RULE,
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
    &stretch_too_large::RULE,
    &support_under_load::RULE,
    &surface_not_clean::RULE,
    &surface_not_dry::RULE,
    &tightened_without_wrench::RULE,
    &torque_contradicted::RULE,
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
    &unknown_hazard_code::RULE,
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
    &unusable_picture::RULE,
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
    let levels = subject.settings.rules.of_all(RULES.iter().map(|rule| rule.id));
    for (rule, &level) in RULES.iter().zip(levels) {
        let Some(severity) = rule.level_under(level) else { continue };
        let from = findings.len();
        (rule.check)(subject, &mut findings);
        // A rule may find a thing less sure than its severity; what the house says goes for all.
        for finding in findings.iter_mut().skip(from) {
            finding.severity = if level.is_some() { severity } else { finding.severity.min(severity) };
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
