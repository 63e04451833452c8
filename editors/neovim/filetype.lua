-- Tells build sheets, catalogs and house rules by their names, whatever the case of the letters. All are kinds of YAML to Neovim:
-- comments, indentation and syntax come with it.
local function filetype_of(path)
  local name = vim.fn.fnamemodify(path, ':t'):lower()
  if name:find('%.build%.ya?ml$') then
    return 'yaml.build-sheet'
  elseif name:find('%.parts%.ya?ml$') then
    return 'yaml.build-sheet-parts'
  elseif name:find('^build%-sheet%.config%.ya?ml$') then
    return 'yaml.build-sheet-config'
  end
end

if vim.fn.has('nvim-0.8') == 1 then
  vim.filetype.add({ pattern = { ['.*%.[yY][aA]?[mM][lL]'] = filetype_of } })
else
  vim.api.nvim_create_autocmd({ 'BufRead', 'BufNewFile' }, {
    callback = function(event)
      local filetype = filetype_of(event.file)
      if filetype then
        vim.bo[event.buf].filetype = filetype
      end
    end,
  })
end
