-- Speaks to the language server through Neovim's own client (0.7 or newer), set up as the README says.
-- COTTER=path/to/cotter nvim --headless --clean --cmd "let g:do_filetype_lua=1" -c "luafile tests/editor/neovim.lua"
local program = assert(os.getenv("COTTER"), "COTTER names the program")
local failures, checks = {}, 0
local folder = vim.fn.tempname()

local function run()

local function check(what, holds, seen)
  checks = checks + 1
  if not holds then
    table.insert(failures, what .. ": " .. vim.inspect(seen))
  end
end

local function read(path)
  local file = assert(io.open(path, "rb"), path)
  local text = file:read("*a")
  file:close()
  return text
end

local function write(path, text)
  local file = assert(io.open(path, "wb"), path)
  file:write(text)
  file:close()
end

-- Neovim 0.7 lacks these two; newer ones have them.
local clients = {}
vim.fs = vim.fs or {
  dirname = function(path)
    return vim.fn.fnamemodify(path, ":h")
  end,
  find = function(name, options)
    local found = vim.fn.findfile(name, options.path .. ";")
    return found ~= "" and { vim.fn.fnamemodify(found, ":p") } or {}
  end,
}
local start_client = vim.lsp.start_client
vim.lsp.start = function(config)
  config.cmd = { program, unpack(config.cmd, 2) }
  config.flags = { debounce_text_changes = 0 }
  local root = config.root_dir or ""
  clients[root] = clients[root] or start_client(config)
  vim.lsp.buf_attach_client(0, clients[root])
end

-- The set-up is the README's, as it stands.
local readme = read("README.md")
assert(loadstring(assert(readme:match("```lua\n(.-)```"), "the README has a set-up")))()
vim.cmd("filetype on")

vim.fn.mkdir(folder .. "/shop", "p")
write(folder .. "/cotter.toml", 'cautions = "shop/common.cotter"\n')
write(folder .. "/shop/common.cotter", [[
catalogue "Shop"
    revision: A, 2026-11-02

tools
    wrench "Torque wrench S"  range 2 to 12 N.m

warning ejection as ring-spring
    hazard: It jumps.
    harm:   Eye injury.
    avoid:  Hold a hand over it, not the [wrench].
    wear:   eye protection
]])
local text = [[
procedure ED-1 "Renew the gasket"
    revision:   A, 2026-11-02
    equipment:  F40 transfer pump
    models:     F40
    source:     manual "F40 workshop manual, issue 7"
    time:       30 min
    people:     1
    requires:   none
    afterwards: none

parts
    screws "Cover screw, M6 x 20" x4  thread M6, class 8.8, dry, torque 7 to 9 N.m crosswise, holds cover
    cover  "Bearing cover"
    ring   "Ring"  spring-loaded, stays off
    gasket "Cover gasket"  single-use

supplies none

section "Work"

remove screws, cover, gasket; discard gasket
inspect cover "𝄞 é e]] .. "\204\129" .. [[ 😀, see [gasket]" as look
    if cracked: renew cover
install new gasket, cover, screws
tighten screws with wrench
warning ring-spring
remove ring
]]
write(folder .. "/a.cotter", text)

vim.cmd("edit " .. folder .. "/a.cotter")
local buffer = vim.api.nvim_get_current_buf()
check("the file's kind is known", vim.bo.filetype == "cotter", vim.bo.filetype)

local function codes()
  local found = {}
  for _, it in ipairs(vim.diagnostic.get(buffer)) do
    table.insert(found, it.code or it.user_data.lsp.code)
  end
  table.sort(found)
  return table.concat(found, " ")
end

local function wait_for(what, wanted)
  local held = vim.wait(20000, function()
    return codes() == wanted
  end, 10)
  check(what, held, codes())
end

-- Line and byte of a needle, from 0; where it holds `@`, of that.
local function place(needle)
  local before, after = needle:match("^(.-)@(.*)$")
  local wanted = before and (before .. after) or needle
  for number, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, true)) do
    local at = line:find(wanted, 1, true)
    if at then
      return number - 1, at - 1 + #(before or "")
    end
  end
  error("no " .. wanted)
end

local function ask(method, params)
  local answers = vim.lsp.buf_request_sync(buffer, method, params, 20000)
  for _, answer in pairs(answers or {}) do
    return answer.result, answer.error
  end
end

local function at(method, needle, more)
  local line, byte = place(needle)
  vim.api.nvim_win_set_cursor(0, { line + 1, byte })
  local params = vim.lsp.util.make_position_params(0, "utf-16")
  for key, value in pairs(more or {}) do
    params[key] = value
  end
  return ask(method, params)
end

local document = { textDocument = { uri = vim.uri_from_bufnr(buffer) } }
local function about(more)
  return vim.tbl_extend("error", document, more or {})
end

vim.wait(20000, function()
  return next(vim.lsp.buf_get_clients(buffer)) ~= nil
end, 10)
wait_for("a clean file has no findings", "")

-- Findings while typing, behind characters of every width.
local line, byte = place("new gasket")
vim.api.nvim_buf_set_text(buffer, line, byte, line, byte + 4, { "" })
wait_for("a fault is found", "reused-single-use")
local finding = vim.diagnostic.get(buffer)[1]
check("at its place", finding and finding.lnum == line and finding.col == byte, finding)
vim.api.nvim_win_set_cursor(0, { line + 1, byte })
local here = vim.lsp.util.make_range_params(0, "utf-16").range
local fixes = ask("textDocument/codeAction", about({ range = here, context = { diagnostics = {} } }))
check("a mend is offered", fixes and fixes[1] and fixes[1].title == "Fit a new one: `new gasket`", fixes)
vim.lsp.util.apply_workspace_edit(fixes[1].edit, "utf-16")
wait_for("and mends it", "")
line, byte = place('" as look')
vim.api.nvim_buf_set_text(buffer, line, byte + 1, line, byte + 1, { " with nothing-known" })
wait_for("a fault behind astral and combining characters", "undeclared-name")
finding = vim.diagnostic.get(buffer)[1]
line, byte = place("nothing-known")
check("at its place too", finding and finding.lnum == line and finding.col == byte, finding)
vim.api.nvim_buf_set_text(buffer, line, byte - 6, line, byte + 13, { "" })
wait_for("and gone again", "")
check("the text is whole", table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, true), "\n") .. "\n" == text, "")

-- What is told, and where it leads.
local told = at("textDocument/hover", "tig@hten screws")
check("a verb is told of", told and told.contents.value:find("Counts as: tightens", 1, true), told)
told = at("textDocument/hover", "7 t@o 9")
check("a torque in both units", told and told.contents.value:find("62–79 lbf·in", 1, true), told)
told = at("textDocument/hover", "see [gas@ket]")
check("a part's state", told and told.contents.value:find("After step 2: off", 1, true), told)
local found = at("textDocument/definition", "with wre@nch")
check("a definition in a catalogue", found and found[1].uri:match("common.cotter$") and found[1].range.start.line == 4, found)
found = at("textDocument/references", "see [gas@ket]", { context = { includeDeclaration = true } })
check("references, in free words too", found and #found == 5, found)
local offers = at("textDocument/completion", "with @wrench")
check("offers", offers and #offers > 2, offers)
local symbols = ask("textDocument/documentSymbol", about())
check("an outline", symbols and symbols[#symbols].children[1].name:find("^1  remove screws"), symbols)
local folds = ask("textDocument/foldingRange", about())
check("folds", folds and #folds > 3, folds)
local whole = { start = { line = 0, character = 0 }, ["end"] = { line = 99, character = 0 } }
local hints = ask("textDocument/inlayHint", about({ range = whole }))
check("hints", hints and #hints > 5, hints)
local colours = ask("textDocument/semanticTokens/full", about())
check("highlighting", colours and #colours.data > 100 and #colours.data % 5 == 0, colours)

-- Another name, in every file.
local _, refused = at("textDocument/rename", "with wre@nch", { newName = "gasket" })
check("a taken name is refused", refused and refused.message:find("is taken already", 1, true), refused)
local edit = at("textDocument/rename", "with wre@nch", { newName = "wrench-s" })
check("a rename of two files", edit and vim.tbl_count(edit.changes) == 2, edit)
vim.lsp.util.apply_workspace_edit(edit, "utf-16")
vim.cmd("silent wall")
wait_for("nothing to mend after a rename", "")
check("and it is done", read(folder .. "/a.cotter"):find("with wrench-s\n", 1, true), "")
check("in the catalogue too", read(folder .. "/shop/common.cotter"):find("not the [wrench-s]", 1, true), "")

-- Formatting, where the server offers it.
local client = vim.lsp.get_client_by_id(next(vim.lsp.buf_get_clients(buffer)))
if client.resolved_capabilities and client.resolved_capabilities.document_formatting
  or client.server_capabilities.documentFormattingProvider == true then
  line, byte = place("tighten screws")
  vim.api.nvim_buf_set_text(buffer, line, byte, line, byte + 7, { "tighten   " })
  local edits = ask("textDocument/formatting", about({ options = { tabSize = 4, insertSpaces = true } }))
  vim.lsp.util.apply_text_edits(edits or {}, buffer, "utf-16")
  check("formatting", pcall(place, "tighten screws with"), edits)
  wait_for("nothing to mend after it", "")
end

-- 200 edits as fast as they can be sent; the findings in the end are those of a check.
math.randomseed(7)
local words = { "remove cover", "new ", "  ", "😀", "\"", "[gasket]", "with nothing-known", ";", "8 N.m", "#", "tools" }
for _ = 1, 200 do
  local row = math.random(0, vim.api.nvim_buf_line_count(buffer) - 1)
  local length = #vim.api.nvim_buf_get_lines(buffer, row, row + 1, true)[1]
  local column = math.random(0, length)
  -- Only where no character is cut.
  while column > 0 and (vim.api.nvim_buf_get_lines(buffer, row, row + 1, true)[1]:byte(column + 1) or 0) % 256 >= 128 do
    column = column - 1
  end
  if math.random() < 0.2 then
    vim.api.nvim_buf_set_text(buffer, row, column, row, column, { "", "    " })
  else
    vim.api.nvim_buf_set_text(buffer, row, column, row, column, { words[math.random(#words)] })
  end
end
write(folder .. "/a.cotter", table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, true), "\n") .. "\n")
local checked = vim.fn.system({ program, "check", "--format", "json", folder .. "/a.cotter" })
local wanted = {}
for _, it in ipairs(vim.fn.json_decode(checked).findings) do
  table.insert(wanted, it.rule)
end
table.sort(wanted)
check("the edits broke something", #wanted > 3, wanted)
wait_for("after 200 edits the findings are those of a check", table.concat(wanted, " "))

local gone = false
client.stop()
gone = vim.wait(20000, function()
  return client.is_stopped()
end, 10)
check("the server leaves when it is asked to", gone, "")
end

-- Whatever happens, the editor ends.
local whole, why = xpcall(run, debug.traceback)
if not whole then
  table.insert(failures, why)
end
vim.fn.delete(folder, "rf")
for _, failure in ipairs(failures) do
  io.stderr:write("not so: " .. failure .. "\n")
end
io.stdout:write(("%d of %d checks hold\n"):format(checks - #failures, checks))
vim.cmd(#failures == 0 and "qall!" or "cquit 1")
