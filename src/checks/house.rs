//! What the house's settings make of the rules.
use super::{Rule, find, near};
use crate::model::Settings;
use crate::model::levels::Level;
use crate::report::Severity;

impl Rule {
    /// The severity in force in this house; none where the rule is off.
    ///
    /// A rule that cannot be waived is never weaker than its own severity.
    pub fn level(&self, settings: &Settings) -> Option<Severity> {
        self.level_under(settings.rules.get(self.id))
    }

    /// The same where it is known what the house says of the rule.
    pub(super) fn level_under(&self, house: Option<Level>) -> Option<Severity> {
        let house = house.map_or(Some(self.severity), Level::severity);
        if self.waivable { house } else { house.max(Some(self.severity)) }
    }
}

/// The first key of the house's `[rules]` that cannot be so, what is wrong with it, and what to do.
pub fn misconfigured(settings: &Settings) -> Option<(&str, String, String)> {
    settings.rules.iter().find_map(|(id, level)| {
        let (message, help) = misconfiguration(id, level)?;
        Some((id, message, help))
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
