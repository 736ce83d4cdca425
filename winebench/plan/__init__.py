"""From a project to an outlook: the must, its scaling, the dated steps and their gates."""
