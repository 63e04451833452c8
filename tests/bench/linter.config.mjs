// The general linter of the bench: a widely used one with its YAML plug-in and that plug-in's recommended rules.
import yml from 'eslint-plugin-yml';

export default [...yml.configs['flat/recommended'], { files: ['**/*.yaml'] }];
