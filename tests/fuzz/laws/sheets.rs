//! Every sheet but the PDFs, whether or not there are errors: it is made, and the same each time. A sheet of a procedure
//! without errors is also made in another language and for learners.
use super::shop::{compiled, shop, source};
use cotter::model::{Document, Language};
use cotter::report::Severity;
use cotter::sheets::exchange::{self, Standard};
use cotter::sheets::language::Words;
use cotter::sheets::{
    Context, Said, SheetError, Withhold, assessment, bench, checklist, handout, instructor, kit, machine,
};

pub fn holds(bytes: &[u8]) {
    let source = source(&String::from_utf8_lossy(bytes));
    let compiled = compiled(&source);
    let context = context(Language::default());
    let made = all(&compiled.document, &context);
    assert_eq!(made.is_some(), compiled.document.procedure().is_some(), "only a procedure has sheets");
    let Some(made) = made.filter(|_| compiled.findings.iter().all(|it| it.severity != Severity::Error))
    else {
        return;
    };
    let said = Said::of(&compiled.document, &context);
    let context = Context { said: Some(&said), ..context };
    assert_eq!(
        all(&compiled.document, &context).as_ref(),
        Some(&made),
        "a build that words things once differs"
    );
    for page in made.iter().filter(|page| page.starts_with("<!doctype html>")) {
        assert_eq!(page.matches("<script").count(), page.matches("</script>").count());
        assert!(page.trim_end().ends_with("</html>"), "a page is cut off");
    }
    let german = self::context(Language::German);
    let said = Some(&said);
    assert_eq!(
        all(&compiled.document, &Context { said, ..german }),
        all(&compiled.document, &german),
        "what was said in one language is no other's"
    );
}

fn context(language: Language) -> Context<'static> {
    let (settings, register) = (&shop().settings, &shop().register);
    Context::new(settings, register, Words::of(language))
}

/// None where the document is no procedure; any other reason not to make a sheet is a fault.
fn all(document: &Document, context: &Context<'_>) -> Option<Vec<String>> {
    let withhold = Withhold { torque: true, limits: true };
    let kit = kit::of(document, 2, context).map(|list| [kit::render(&list, context), Ok(kit::json(&list))]);
    let made = [
        bench::render(document, context),
        checklist::render(document, context),
        instructor::render(document, 2, context),
        assessment::render(document, context),
        machine::render(document, context),
        exchange::render(document, Standard::Dita, context),
        exchange::render(document, Standard::S1000d, context),
        handout::bench(document, withhold, context),
        handout::checklist(document, withhold, context),
        handout::answers(document, withhold, context),
    ];
    let kit = kit.unwrap_or_else(|error| [Err(error.clone()), Err(error)]);
    match made.into_iter().chain(kit).collect::<Result<Vec<_>, _>>() {
        Ok(made) => Some(made),
        Err(SheetError::NotAProcedure) => None,
        Err(error) => panic!("{error}"),
    }
}
