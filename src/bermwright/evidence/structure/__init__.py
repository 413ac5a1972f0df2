"""What carries: ribs, timber in the cold and in a fire, joints, panes under wind."""
