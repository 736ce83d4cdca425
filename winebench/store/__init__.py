"""What is kept on disk: project files, recovery copies, samples and small settings."""
