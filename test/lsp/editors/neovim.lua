-- What a consultant does in Neovim, without a screen. It waits for what the server and the editor say, never for
-- a time; what it saw goes as one line of JSON into the file that RESULT names.

local saw = {}

local function finish(trouble)
  saw.trouble = trouble
  local file = assert(io.open(os.getenv('RESULT'), 'w'))
  file:write(vim.fn.json_encode(saw))
  file:close()
  -- Ends the server in order, as leaving by hand would.
  vim.cmd('qall!')
end

local job

local function go_on(...)
  local fine, trouble = coroutine.resume(job, ...)
  if not fine then
    finish(trouble)
  elseif coroutine.status(job) == 'dead' then
    finish(nil)
  end
end

-- The diagnostics of the buffer at hand, as soon as they fulfil a condition.
local function diagnostics(wanted)
  local function found()
    return wanted(vim.diagnostic.get(0)) and vim.diagnostic.get(0)
  end
  if not found() then
    local watch
    watch = vim.api.nvim_create_autocmd('DiagnosticChanged', {
      callback = function()
        if found() and watch then
          vim.api.nvim_del_autocmd(watch)
          watch = nil
          vim.schedule(go_on)
        end
      end,
    })
    coroutine.yield()
  end
  return found()
end

-- The server's answer to a request about the buffer at hand.
local function ask(method, more)
  local params = { textDocument = vim.lsp.util.make_text_document_params(0) }
  vim.lsp.buf_request(0, method, vim.tbl_extend('error', params, more), function(trouble, answer)
    vim.schedule(function()
      go_on(trouble, answer)
    end)
  end)
  local trouble, answer = coroutine.yield()
  if trouble then
    error(vim.inspect(trouble))
  end
  return answer
end

local function code_of(diagnostic)
  return diagnostic.code or diagnostic.user_data.lsp.code
end

local function has(code)
  return function(all)
    return #vim.tbl_filter(function(one) return code_of(one) == code end, all) > 0
  end
end

local function has_no(code)
  return function(all)
    return not has(code)(all)
  end
end

-- Where a word of the buffer stands first, in the terms of the protocol.
local function position_of(word)
  for number, text in ipairs(vim.api.nvim_buf_get_lines(0, 0, -1, false)) do
    local column = text:find(word, 1, true)
    if column then
      return { line = number - 1, character = column - 1 }
    end
  end
  error(word .. ' is nowhere')
end

local function apply(edit)
  vim.lsp.util.apply_workspace_edit(edit, 'utf-16')
end

local function work()
  vim.cmd('edit lawn.wood')
  saw.filetype = vim.bo.filetype
  saw.comments, saw.indent = vim.bo.commentstring, vim.bo.shiftwidth
  for _, one in ipairs(diagnostics(has('unknown-word'))) do
    if code_of(one) == 'unknown-word' then
      saw.problem = { line = one.lnum, column = one.col, severity = one.severity, message = one.message }
    end
  end

  saw.hover = ask('textDocument/hover', { position = position_of('Quercus') }).contents.value

  local place = position_of('fiar')
  saw.completion = vim.tbl_map(
    function(item) return item.label end,
    ask('textDocument/completion', { position = place }).items
  )

  local mistaken = { start = place, ['end'] = { line = place.line, character = place.character + 4 } }
  local actions = ask('textDocument/codeAction', { range = mistaken, context = { diagnostics = {}, only = { 'quickfix' } } })
  saw.fixes = vim.tbl_map(function(action) return action.title end, actions)
  apply(actions[1].edit)
  diagnostics(has_no('unknown-word'))

  apply(ask('textDocument/rename', { position = position_of('RV'), newName = 'RUTH' }))

  local edits = ask('textDocument/formatting', { options = { tabSize = 2, insertSpaces = true } })
  vim.lsp.util.apply_text_edits(edits, vim.api.nvim_get_current_buf(), 'utf-16')
  vim.cmd('wall')
end

job = coroutine.create(work)
-- When everything that stands in the configuration is in place, and outside of the event: within one, no other fires.
vim.api.nvim_create_autocmd('VimEnter', { callback = function() vim.schedule(go_on) end })
