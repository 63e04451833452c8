-- Runs inside headless Neovim: its built-in LSP client opens a sheet and uses the server as a user would.
-- Environment: SERVER_COMMAND (JSON array), SHEET, SLIP_BEFORE, SLIP_AFTER, SLIP_CODE. Exit code 0 says all passed.
local patience = 20000
local passed, failed = 0, 0
local server = { exit_code = nil }

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

local function attach(buffer)
  local config = {
    name = 'build-sheet',
    cmd = vim.fn.json_decode(vim.env.SERVER_COMMAND),
    root_dir = vim.fn.fnamemodify(vim.env.SHEET, ':h'),
    get_language_id = function()
      return 'build-sheet'
    end,
    on_exit = function(code)
      server.exit_code = code
    end,
  }
  if vim.lsp.start then
    return vim.lsp.start(config, { bufnr = buffer })
  end
  local id = vim.lsp.start_client(config)
  vim.lsp.buf_attach_client(buffer, id)
  return id
end

local function request(buffer, id, method, params)
  local answers = assert(vim.lsp.buf_request_sync(buffer, method, params, patience))
  local answer = assert(answers[id], method .. ' got no answer')
  assert(not answer.err and not answer.error, vim.inspect(answer.err or answer.error))
  return answer.result
end

local function run()
  vim.cmd('edit ' .. vim.fn.fnameescape(vim.env.SHEET))
  local buffer = vim.api.nvim_get_current_buf()
  local original = text(buffer)
  local id
  local slip

  check('the client starts the server and attaches to the sheet', function()
    id = assert(attach(buffer))
    wait_for('the server', function()
      local client = vim.lsp.get_client_by_id(id)
      return client and client.server_capabilities and client.server_capabilities.hoverProvider
    end)
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

  check('the server ends cleanly', function()
    vim.lsp.stop_client(id)
    wait_for("the server's end", function()
      return server.exit_code ~= nil
    end)
    assert(server.exit_code == 0, 'exit code ' .. tostring(server.exit_code))
  end)
end

local ok, err = pcall(run)
if not ok then
  failed = failed + 1
  say('FAIL  neovim: ' .. tostring(err))
end
say(string.format('neovim: %d passed, %d failed', passed, failed))
vim.cmd(failed == 0 and passed > 0 and 'qall!' or 'cquit 1')
