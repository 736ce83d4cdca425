"""Write down what was read, done and noted; correct it or take it out again."""
