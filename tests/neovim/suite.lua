-- Runs inside headless Neovim, set up as the README says: opens a sheet and uses the server as a user would.
-- Environment: SHEET, SLIP_BEFORE, SLIP_AFTER, SLIP_CODE. Exit code 0 says all passed.
local patience = 120000
local passed, failed = 0, 0

local function say(line)
  io.stdout:write(line .. '\n')
end

local function wait_for(what, probe)
  assert(vim.wait(patience, probe, 20), 'waited in vain for ' .. what)
end

local function check(story, tell)
  local ok, err = pcall(tell)
  if ok then
    passed = passed + 1
    say('pass  neovim: ' .. story)
  else
    failed = failed + 1
    say('FAIL  neovim: ' .. story .. '\n' .. tostring(err))
  end
end

local function text(buffer)
  return table.concat(vim.api.nvim_buf_get_lines(buffer, 0, -1, false), '\n')
end

--- Line and column (from 0, bytes) where `needle` begins.
local function place(buffer, needle)
  for row, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    local column = line:find(needle, 1, true)
    if column then
      return row - 1, column - 1
    end
  end
  error('the sheet has no ' .. needle)
end

local function finding(buffer, code)
  for _, diagnostic in ipairs(vim.diagnostic.get(buffer)) do
    if diagnostic.code == code or (diagnostic.user_data and vim.tbl_get(diagnostic.user_data, 'lsp', 'code') == code) then
      return diagnostic
    end
  end
end

--- The client that serves a buffer, once it is ready.
local function client_of(buffer)
  local ready
  wait_for('the server', function()
    for _, client in pairs((vim.lsp.get_clients or vim.lsp.get_active_clients)()) do
      if client.name == 'build-sheet' and client.attached_buffers[buffer] and client.server_capabilities.hoverProvider then
        ready = client
      end
    end
    return ready ~= nil
  end)
  return ready
end

local function edit(path)
  vim.cmd('edit ' .. vim.fn.fnameescape(path))
  return vim.api.nvim_get_current_buf()
end

--- Types keys as from a keyboard, in the notation of mappings.
local function type_keys(keys)
  vim.api.nvim_feedkeys(vim.api.nvim_replace_termcodes(keys, true, false, true), 'tx', false)
end

local function request(buffer, id, method, params)
  local answers = assert(vim.lsp.buf_request_sync(buffer, method, params, patience))
  local answer = assert(answers[id], method .. ' got no answer')
  assert(not answer.err and not answer.error, vim.inspect(answer.err or answer.error))
  return answer.result
end

local function run()
  local folder = vim.fn.fnamemodify(vim.env.SHEET, ':h')
  local unopened = folder .. '/unopened.build.yaml'
  vim.fn.writefile({ 'format: 2', 'ignition: { trigger: contact-points }', 'stages: [{ name: hidden }]' }, unopened)
  local buffer = edit(vim.env.SHEET)
  local original = text(buffer)
  local client, id
  local slip

  check('the lines of the README start the server for a sheet', function()
    client = client_of(buffer)
    id = client.id
  end)

  check('the syntax, comments and indentation of YAML stay', function()
    assert(vim.bo.filetype == 'yaml.build-sheet', vim.bo.filetype)
    assert(vim.bo.commentstring:find('#', 1, true), 'comments: ' .. vim.bo.commentstring)
    assert(vim.bo.indentexpr ~= '', 'no indentation')
    local row, column = place(buffer, 'engine:')
    local group = vim.fn.synIDattr(vim.fn.synID(row + 1, column + 1, true), 'name')
    assert(group:lower():find('yaml'), 'syntax: ' .. group)
  end)

  check('keys type a sheet, the Tab key among them', function()
    local new = edit(folder .. '/new.build.yaml')
    type_keys('iengine:<CR>cylinders: 8<CR>intake: { pads: 1 }<CR><C-u>fuel:<CR><Esc>')
    type_keys('i<Tab>grade: e85<Esc>')
    local typed = 'engine:\n  cylinders: 8\n  intake: { pads: 1 }\nfuel:\n  grade: e85'
    assert(text(new) == typed, vim.inspect(text(new)))
    vim.cmd('bwipeout!')
  end)

  check('one server serves all sheets and house rules of a folder, upper-case names too', function()
    for name, filetype in pairs({ ['LOUD.BUILD.YAML'] = 'yaml.build-sheet', ['build-sheet.config.yaml'] = 'yaml.build-sheet-config' }) do
      local other = edit(folder .. '/' .. name)
      assert(vim.bo.filetype == filetype, name .. ' is ' .. vim.bo.filetype)
      assert(client_of(other).id == id, 'another server')
      vim.cmd('bwipeout!')
    end
    vim.cmd('edit ' .. vim.fn.fnameescape(folder .. '/other.yaml'))
    assert(vim.bo.filetype == 'yaml', vim.bo.filetype)
    vim.cmd('bwipeout!')
    vim.cmd('buffer ' .. buffer)
  end)

  check('completion leaves a field empty or its list begun, on one line', function()
    assert(vim.bo.omnifunc == 'v:lua.vim.lsp.omnifunc', vim.bo.omnifunc)
    local found = request(buffer, id, 'textDocument/completion', {
      textDocument = vim.lsp.util.make_text_document_params(buffer),
      position = { line = 0, character = 0 },
    })
    assert(#found.items > 0, 'nothing is offered')
    for _, item in ipairs(found.items) do
      assert(item.textEdit.newText:find('^[%w-]+: ?%[?$'), vim.inspect(item.textEdit.newText))
    end
  end)

  check('a slip gets a finding', function()
    local row, column = place(buffer, vim.env.SLIP_BEFORE)
    vim.api.nvim_buf_set_text(buffer, row, column, row, column + #vim.env.SLIP_BEFORE, { vim.env.SLIP_AFTER })
    wait_for('the finding ' .. vim.env.SLIP_CODE, function()
      slip = finding(buffer, vim.env.SLIP_CODE)
      return slip ~= nil
    end)
    assert(slip.lnum == row, 'the finding is on another line')
  end)

  check('hover on injectors shows their figures', function()
    local row, column = place(buffer, 'injectors:')
    local hover = request(buffer, id, 'textDocument/hover', {
      textDocument = vim.lsp.util.make_text_document_params(buffer),
      position = { line = row, character = column + 1 },
    })
    local markdown = table.concat(vim.lsp.util.convert_input_to_markdown_lines(hover.contents), '\n')
    assert(markdown:lower():find('duty'), 'no duty in: ' .. markdown)
    assert(markdown:find('%d'), 'no figures in: ' .. markdown)
  end)

  check('a code action repairs the slip', function()
    local range = {
      start = { line = slip.lnum, character = slip.col },
      ['end'] = { line = slip.end_lnum, character = slip.end_col },
    }
    local actions = request(buffer, id, 'textDocument/codeAction', {
      textDocument = vim.lsp.util.make_text_document_params(buffer),
      range = range,
      context = {
        diagnostics = {
          vim.tbl_extend('force', slip.user_data.lsp, {
            range = range,
            message = slip.message,
            severity = slip.severity,
            source = slip.source,
          }),
        },
      },
    })
    local action = assert(actions and actions[1], 'no code action')
    if not action.edit then
      action = request(buffer, id, 'codeAction/resolve', action)
    end
    vim.lsp.util.apply_workspace_edit(action.edit, vim.lsp.get_client_by_id(id).offset_encoding)
    assert(vim.api.nvim_buf_get_lines(buffer, slip.lnum, slip.lnum + 1, false)[1]:find(vim.env.SLIP_AFTER .. ' %a'), 'no unit')
    wait_for('the finding to go', function()
      return finding(buffer, vim.env.SLIP_CODE) == nil
    end)
  end)

  check('undo restores the sheet', function()
    for _ = 1, 10 do
      if text(buffer) == original then
        return
      end
      vim.cmd('silent undo')
    end
    error('undo gives another text')
  end)

  check('findings of a sheet that nobody opened are known', function()
    local other = vim.uri_to_bufnr(vim.uri_from_fname(unopened))
    wait_for('the finding in the unopened sheet', function()
      return finding(other, 'ignition/contact-points') ~= nil
    end)
    assert(not vim.api.nvim_buf_is_loaded(other), 'it is loaded')
  end)

  check('a change leads to the value before, a stage is renamed with who names it', function()
    vim.fn.writefile({
      'format: 2',
      'fuel: { grade: gasoline-e10 }',
      'stages:',
      '  - { name: now }',
      '  - { name: blower, changes: { fuel: { grade: e85 } } }',
      'silence: [{ rule: paper/no-handover, stage: blower, reason: not yet }]',
    }, folder .. '/plan.build.yaml')
    local plan = edit(folder .. '/plan.build.yaml')
    client_of(plan)
    local function at(needle)
      local row, column = place(plan, needle)
      return {
        textDocument = vim.lsp.util.make_text_document_params(plan),
        position = { line = row, character = column + 1 },
      }
    end
    local found = request(plan, id, 'textDocument/definition', at('e85'))
    local target = found[1] or found
    local range = target.range or target.targetSelectionRange
    assert(range.start.line == 1 and range.start.character == 15, vim.inspect(range))
    local params = at('blower')
    params.newName = 'roots'
    local change = request(plan, id, 'textDocument/rename', params)
    vim.lsp.util.apply_workspace_edit(change, vim.lsp.get_client_by_id(id).offset_encoding)
    local after = text(plan)
    assert(after:find('name: roots, changes', 1, true) and after:find('stage: roots, reason', 1, true), after)
    local symbols = request(plan, id, 'workspace/symbol', { query = 'hidden' })
    assert(#symbols == 1 and symbols[1].name == 'hidden', vim.inspect(symbols))
    vim.cmd('bwipeout!')
    vim.cmd('buffer ' .. buffer)
  end)

  check('a section becomes a part of the catalog of the house, and the sheet names it', function()
    vim.fn.writefile({ "catalogs: ['*.parts.yaml']" }, folder .. '/build-sheet.config.yaml')
    vim.fn.writefile({ 'format: 1', 'parts:', '  - { id: other, pump: { current: 8 A } }' }, folder .. '/shelf.parts.yaml')
    vim.fn.writefile({
      'format: 2',
      'fuel-system:',
      '  pump: { name: Heron 58, placement: in-tank, rated-voltage: 13.5 V, current: 9 A } # by phone',
    }, folder .. '/shelf.build.yaml')
    local sheet = edit(folder .. '/shelf.build.yaml')
    assert(client_of(sheet).id == id, 'another server')
    local row, column = place(sheet, 'pump:')
    local cursor = { line = row, character = column }
    local actions
    wait_for('the section to be offered as a part', function()
      actions = request(sheet, id, 'textDocument/codeAction', {
        textDocument = vim.lsp.util.make_text_document_params(sheet),
        range = { start = cursor, ['end'] = cursor },
        context = { diagnostics = {}, only = { 'refactor.extract' } },
      })
      return actions and #actions == 1
    end)
    assert(actions[1].title == 'Make it the part "heron-58" of "shelf.parts.yaml"', actions[1].title)
    vim.lsp.util.apply_workspace_edit(actions[1].edit, vim.lsp.get_client_by_id(id).offset_encoding)
    assert(text(sheet):find('pump: { use: heron-58, placement: in-tank } # by phone', 1, true), text(sheet))
    local catalog = vim.uri_to_bufnr(vim.uri_from_fname(folder .. '/shelf.parts.yaml'))
    assert(text(catalog):find('id: other', 1, true) and text(catalog):find('id: heron-58', 1, true), text(catalog))
    vim.cmd('silent! wall')
    vim.cmd('buffer ' .. buffer)
  end)

  check('the server ends cleanly', function()
    local code
    client.config.on_exit = function(exit_code)
      code = exit_code
    end
    vim.lsp.stop_client(id)
    wait_for("the server's end", function()
      return code ~= nil
    end)
    assert(code == 0, 'exit code ' .. tostring(code))
  end)
end

local ok, err = pcall(run)
if not ok then
  failed = failed + 1
  say('FAIL  neovim: ' .. tostring(err))
end
say(string.format('neovim: %d passed, %d failed', passed, failed))
vim.cmd(failed == 0 and passed > 0 and 'qall!' or 'cquit 1')
