-- Neovim's own client, headless: opens FILE with the server CLI, waits for what it finds, hovers at LINE and COLUMN (from 0),
-- and writes both as JSON to RESULT.
local file, cli = os.getenv('FILE'), os.getenv('CLI')
vim.cmd('edit ' .. vim.fn.fnameescape(file))
vim.bo.filetype = 'ampscribe'
local buffer = vim.api.nvim_get_current_buf()
local published
local handler = vim.lsp.handlers['textDocument/publishDiagnostics']
vim.lsp.handlers['textDocument/publishDiagnostics'] = function(err, result, context, config)
  published = result
  return handler(err, result, context, config)
end
local id = vim.lsp.start_client({
  name = 'ampscribe',
  cmd = { 'node', cli, 'serve', '--stdio' },
  root_dir = vim.fn.fnamemodify(file, ':h'),
})
vim.lsp.buf_attach_client(buffer, id)
if not vim.wait(20000, function() return published ~= nil and #published.diagnostics > 0 end, 20) then
  io.stderr:write('no diagnostics arrived\n')
  vim.cmd('cquit 1')
end
vim.api.nvim_win_set_cursor(0, { tonumber(os.getenv('LINE')) + 1, 0 })
local params = vim.lsp.util.make_position_params()
params.position = { line = tonumber(os.getenv('LINE')), character = tonumber(os.getenv('COLUMN')) }
local answers = vim.lsp.buf_request_sync(buffer, 'textDocument/hover', params, 10000)
local hover
for _, answer in pairs(answers or {}) do hover = answer.result end
local shown = {}
for _, one in ipairs(vim.diagnostic.get(buffer)) do
  table.insert(shown, { line = one.lnum, column = one.col, severity = one.severity, message = one.message, code = one.code })
end
local out = io.open(os.getenv('RESULT'), 'w')
out:write(vim.fn.json_encode({ published = published.diagnostics, shown = shown, hover = hover }))
out:close()
vim.lsp.stop_client(id)
vim.wait(1000, function() return vim.lsp.get_client_by_id(id) == nil end, 20)
vim.cmd('qall!')
