"""(room being built)"""
