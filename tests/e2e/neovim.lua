-- Neovim's own client, headless: opens FILES (a line each) with the server CLI, waits for what it finds in each, hovers in the first at
-- LINE and COLUMN (from 0), and writes all as JSON to RESULT, by file.
local files, cli = vim.split(os.getenv('FILES'), '\n'), os.getenv('CLI')
local published = {}
local handler = vim.lsp.handlers['textDocument/publishDiagnostics']
vim.lsp.handlers['textDocument/publishDiagnostics'] = function(err, result, context, config)
  published[result.uri] = result.diagnostics
  return handler(err, result, context, config)
end
local id = vim.lsp.start_client({
  name = 'ampscribe',
  cmd = { 'node', cli, 'serve', '--stdio' },
  root_dir = vim.fn.fnamemodify(files[1], ':h'),
})
local results = {}
for number, file in ipairs(files) do
  vim.cmd('edit ' .. vim.fn.fnameescape(file))
  vim.bo.filetype = 'ampscribe'
  local buffer = vim.api.nvim_get_current_buf()
  vim.lsp.buf_attach_client(buffer, id)
  local uri = vim.uri_from_bufnr(buffer)
  vim.wait(number == 1 and 20000 or 5000, function() return published[uri] ~= nil and #published[uri] > 0 end, 5)
  local hover
  if number == 1 then
    vim.api.nvim_win_set_cursor(0, { tonumber(os.getenv('LINE')) + 1, 0 })
    local params = vim.lsp.util.make_position_params()
    params.position = { line = tonumber(os.getenv('LINE')), character = tonumber(os.getenv('COLUMN')) }
    for _, answer in pairs(vim.lsp.buf_request_sync(buffer, 'textDocument/hover', params, 10000) or {}) do hover = answer.result end
  end
  local shown = {}
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    table.insert(shown, { line = one.lnum, column = one.col, severity = one.severity, message = one.message, code = one.code })
  end
  results[file] = { published = published[uri] or {}, shown = shown, hover = hover }
end
local out = io.open(os.getenv('RESULT'), 'w')
out:write(vim.fn.json_encode(results))
out:close()
vim.lsp.stop_client(id)
vim.wait(1000, function() return vim.lsp.get_client_by_id(id) == nil end, 20)
vim.cmd('qall!')
