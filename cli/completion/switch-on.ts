/** How a grower switches completion on in each shell: below the help of `evensow completion`. */
export const SWITCH_ON = `Tab then completes commands, options, their words, and files.
To switch it on, type the line of your shell once and open a new window:
bash:
  echo 'eval "$(evensow completion bash)"' >> ~/.bashrc
zsh:
  echo 'autoload -U compinit && compinit' >> ~/.zshrc
  echo 'eval "$(evensow completion zsh)"' >> ~/.zshrc
fish:
  mkdir -p ~/.config/fish/completions
  evensow completion fish > ~/.config/fish/completions/evensow.fish
Which shell you have: echo $SHELL. To switch it off, take the line (in fish: the
file) away again. The command must be called evensow there (npm link).`;
