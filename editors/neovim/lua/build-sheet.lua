-- Starts the language server of this folder's clone, or unpacked extension, for a buffer.
local M = {}

local files = vim.loop or vim.uv
local home = vim.fn.fnamemodify(debug.getinfo(1, 'S').source:sub(2), ':p:h:h:h:h')
local server = home .. '/dist/server.cjs'
local running = {}

--- The folder that house rules are looked for up to: of the repository, else of the house rules, else of the sheet.
local function root_of(folder)
  for _, mark in ipairs({ '.git', 'build-sheet.config.yaml', 'build-sheet.config.yml' }) do
    local place, above = folder, nil
    while place ~= above do
      if files.fs_stat(place .. '/' .. mark) then
        return place
      end
      place, above = vim.fn.fnamemodify(place, ':h'), place
    end
  end
  return folder
end

--- Attaches the server of the buffer's root folder, started when there is none yet.
function M.attach(buffer)
  if not files.fs_stat(server) then
    vim.notify('Build Sheet: ' .. server .. ' is missing; run "npm ci && npm run build" in ' .. home, vim.log.levels.WARN)
    return
  end
  local root = root_of(vim.fn.fnamemodify(vim.api.nvim_buf_get_name(buffer), ':p:h'))
  local config = {
    name = 'build-sheet',
    cmd = { 'node', server, '--stdio' },
    root_dir = root,
    workspace_folders = { { uri = vim.uri_from_fname(root), name = root } },
    get_language_id = function(_, filetype)
      return (filetype:gsub('^yaml%.', ''))
    end,
  }
  vim.bo[buffer].omnifunc = 'v:lua.vim.lsp.omnifunc'
  if vim.lsp.start then
    vim.lsp.start(config, { bufnr = buffer })
    return
  end
  if not (running[root] and vim.lsp.get_client_by_id(running[root])) then
    running[root] = vim.lsp.start_client(config)
  end
  vim.lsp.buf_attach_client(buffer, running[root])
end

return M
