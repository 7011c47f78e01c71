//! The list as tables with a box before each line.
use super::{Line, List};
use crate::sheets::language::Words;
use crate::sheets::{Context, html};

/// One section for each list that has lines; `heading` is the tag of their headings.
pub(in crate::sheets) fn tables(list: &List, context: &Context<'_>, heading: &str) -> String {
    let words = context.words;
    let mut out = String::with_capacity(4_096);
    let sections = [
        ("order", "parts-to-order", "order-says", &list.order),
        ("have", "parts-to-have", "have-says", &list.have),
        ("tools", "tools", "tools-say", &list.tools),
        ("supplies", "supplies", "", &list.supplies),
        ("wear", "protective-equipment", "wear-says", &list.wear),
    ];
    // What is shared between procedures says nothing where there is one.
    let hushed = if list.procedures.len() < 2 { "tools-say" } else { "" };
    for (name, title, says, lines) in sections.into_iter().filter(|section| !section.3.is_empty()) {
        out.push_str("<section class=\"kit-list\" aria-labelledby=\"kit-");
        out.push_str(name);
        out.push_str("\">\n<");
        out.push_str(heading);
        out.push_str(" id=\"kit-");
        out.push_str(name);
        out.push_str("\">");
        html::escape(&mut out, words.label(title));
        html::close(&mut out, heading);
        out.push('\n');
        if says != hushed && !says.is_empty() {
            html::element(&mut out, "p", "rule-text", words.label(says));
        }
        // What is worn is said by the sheet itself.
        let own = context.own().filter(|_| name != "wear");
        Table { list, words, lines, own }.render(&mut out);
        out.push_str("</section>\n");
    }
    out
}

struct Table<'a> {
    list: &'a List,
    words: &'a Words,
    lines: &'a [Line],
    /// The language of their texts, where it is not that of the page.
    own: Option<&'static str>,
}

impl Table<'_> {
    fn render(&self, out: &mut String) {
        let several_benches = self.list.benches > 1 && self.lines.iter().any(|line| line.all.is_some());
        let counted = self.lines.iter().any(|line| line.all.is_some());
        let numbered = self.lines.iter().any(|line| !line.number.is_empty());
        let several = self.list.procedures.len() > 1;
        out.push_str("<table>\n<thead><tr>");
        let heads = [
            (true, "done", "laid-out"),
            (several_benches, "count", "each-bench"),
            (counted, "count", if several_benches { "in-all" } else { "pieces" }),
            (true, "what", "what"),
            (numbered, "part-no", "number"),
            (several, "for", "for-procedures"),
        ];
        for (_, class, key) in heads.into_iter().filter(|(shown, ..)| *shown) {
            out.push_str("<th scope=\"col\" class=\"");
            out.push_str(class);
            out.push_str("\">");
            html::escape(out, self.words.label(key));
            out.push_str("</th>");
        }
        out.push_str("</tr></thead>\n<tbody>\n");
        for line in self.lines {
            out.push_str("<tr><td class=\"done\"><span class=\"box\"></span></td>");
            let pieces = |count: Option<u64>| count.map_or_else(String::new, |count| count.to_string());
            if several_benches {
                html::element(out, "td", "count", &pieces(line.each));
            }
            if counted {
                html::element(out, "td", "count all", &pieces(line.all));
            }
            out.push_str("<th scope=\"row\" class=\"what\">");
            html::author(out, self.own, &line.text);
            for note in &line.notes {
                out.push(' ');
                html::element(out, "span", "fact", note);
            }
            out.push_str("</th>");
            if numbered {
                html::element(out, "td", "part-no", &line.number);
            }
            if several {
                html::element(out, "td", "for", &line.procedures.join(", "));
            }
            out.push_str("</tr>\n");
        }
        out.push_str("</tbody>\n</table>\n");
    }
}
