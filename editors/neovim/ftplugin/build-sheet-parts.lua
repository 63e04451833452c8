require('build-sheet').attach(vim.api.nvim_get_current_buf())
