// What is written into every text. `prose` is what a reader sees of it where the text is CommonMark; `marks` is said of
// what may then become a link or emphasis, `open` of what takes in the blocks behind it.
//
// The ways in are those of the "OWASP Cross Site Scripting Prevention Cheat Sheet": element content, attributes, URLs,
// CSS and scripts; and of this program's own: template marks, link references, entities. None holds a comma or a
// semicolon outside of quotes' reach, since some texts end there, nor a figure that a handout would withhold.
export const HARMLESS = { name: 'harmless', text: 'words of rest 1' };

export const PAYLOADS = [
    { name: 'a script', text: '<script>window.zq=1</script>' },
    { name: 'a picture that fails', text: '<img src=x onerror="window.zq=1">' },
    { name: 'a drawing that loads', text: '<svg/onload=window.zq=1><set onbegin=window.zq=1></svg>' },
    { name: 'a frame', text: '<iframe srcdoc="<script>parent.zq=1</script>"></iframe><object data=x><embed src=x>' },
    { name: 'another address', text: '<base href=https://zq.example/><meta http-equiv=refresh content="0 url=https://zq.example/">' },
    { name: 'a field', text: '<input autofocus onfocus=window.zq=1><form action=https://zq.example/><button>' },
    { name: 'out of double quotes', text: '" onmouseover="window.zq=1" style="position:fixed' },
    { name: 'out of single quotes', text: "' onmouseover='window.zq=1' style='position:fixed" },
    { name: 'out of no quotes', text: 'x onmouseover=window.zq=1 x' },
    { name: 'out of a script', text: '</script><script>window.zq=1</script>' },
    { name: 'out of a style', text: '</style><style>body{display:none}</style>' },
    { name: 'out of the head', text: '</title></head><body onload=window.zq=1></textarea></noscript></template>' },
    { name: 'out of a list', text: '</p></li></ol></section></main><h1>zq</h1>' },
    { name: 'a comment', text: '<!--<script>', open: true },
    { name: 'an end of a comment', text: '--><script>window.zq=1</script><!--' },
    { name: 'a section of characters', text: ']]><![CDATA[<script>window.zq=1</script>]]>' },
    { name: 'style of its own', text: '"}body{background:url(https://zq.example/zq.png)}' },
    { name: 'an import of styles', text: "';@import 'https://zq.example/zq.css';x" },
    { name: 'out of a script\'s text', text: '"+(window.zq=1)+"\\u003cscript>${window.zq=1}`', prose: '"+(window.zq=1)+"\\u003cscript>${window.zq=1}`' },
    { name: 'marks of a template', text: '{{house}} {{{house}}} {{> title}} {{word number}} {{#each zq}}' },
    { name: 'places of a page', text: '<!--style--><!--steps--><!--record-script-->' },
    { name: 'a link that runs', text: '[words](javascript:window.zq=1)', prose: 'words' },
    { name: 'a link that runs behind a tab', text: '[words](java&Tab;script:window.zq=1)', prose: 'words' },
    { name: 'a link that runs in capitals', text: '[words](JaVaScRiPt&colon;window.zq=1)', prose: 'words' },
    { name: 'a link with a page in it', text: '[words](data:text/html;base64;PHNjcmlwdD4=)', prose: 'words' },
    { name: 'a link out of its quotes', text: '[words](<https://zq.example/" onmouseover="window.zq=1>)', prose: 'words', marks: true },
    { name: 'a link with a title', text: '[words](https://zq.example/ \'" onmouseover="window.zq=1\')', prose: 'words', marks: true },
    { name: 'a link of the program\'s own kind', text: '[words](cotter-reference:way)', prose: 'words' },
    { name: 'an address in brackets that runs', text: '<javascript:window.zq=1>', prose: 'javascript:window.zq=1' },
    { name: 'an address in brackets', text: '<https://zq.example/?"onmouseover=window.zq=1>', prose: 'https://zq.example/?"onmouseover=window.zq=1', marks: true },
    { name: 'a picture from elsewhere', text: '![words](https://zq.example/zq.png)', prose: 'words', marks: true },
    { name: 'a picture that runs', text: '![<script>window.zq=1</script>](javascript:window.zq=1)', prose: '<script>window.zq=1</script>', marks: true },
    { name: 'code', text: '`</code><script>window.zq=1</script>`', prose: '</code><script>window.zq=1</script>', marks: true },
    {
        name: 'entities',
        text: '&lt;script&gt;window.zq=1&lt;/script&gt; &#60;b&#x3e; &quot; &amp;amp;',
        prose: '<script>window.zq=1</script> <b> " &amp;',
    },
    { name: 'half an entity', text: '&#x3C script &#60 &lt' },
    { name: 'other alphabets', text: '\uff1cscript\uff1e \u2028 \u202e<b>\u202c \ufeff<i>' },
    { name: 'percent signs', text: '%3Cscript%3Ewindow.zq=1%3C/script%3E %22%3E' },
];

/** All of them in one text. */
export const TOGETHER = { name: 'all together', text: PAYLOADS.map((it) => it.text).join(' '), together: true };
